package org.diesurvey.archive.query;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * A question to an archive in plain words, as a condition of SQL. Values only ever become
 * parameters, and fields come from a closed list, so no expression can do more than choose rows.
 *
 * <pre>
 * expression = both { "or" both }
 * both       = one { "and" one }
 * one        = "not" one | "(" expression ")" | field test
 * test       = ( "=" | "!=" | "&lt;" | "&lt;=" | ">" | ">=" ) value | "contains" value
 *            | "is" "missing" | "is" "stated"
 * value      = number [ "%" ] | word | "text in quotes"
 * </pre>
 */
public final class FindExpression {
  private static final Pattern TOKEN =
      Pattern.compile(
          "\\s*(?:(\"[^\"]*\"|'[^']*')|(<=|>=|!=|<|>|=|\\(|\\)|%)|([^\\s<>=!()%\"']+))");
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?");
  private static final List<String> COMPARISONS = List.of("=", "!=", "<", "<=", ">", ">=");
  private static final int DEEPEST = 50;
  private static final int LONGEST = 4000;

  private final String text;
  private final List<String> tokens = new ArrayList<>();
  private final List<Object> parameters = new ArrayList<>();
  private int at;
  private int depth;

  private FindExpression(String text) {
    this.text = text;
  }

  /**
   * A condition on the view surveyed_photo.
   *
   * @param sql with a question mark for every parameter
   * @param parameters text and numbers, in order
   */
  public record Condition(String sql, List<Object> parameters) {
    /** Copies the list. */
    public Condition {
      parameters = List.copyOf(parameters);
    }
  }

  /**
   * Reads an expression.
   *
   * @throws DieInputException DOCUMENT_INVALID naming the word that is not understood
   */
  public static Condition parse(String text) {
    FindExpression e = new FindExpression(text);
    e.split();
    String sql = e.expression();
    if (e.at < e.tokens.size()) {
      throw e.wrong("'" + e.peek() + "' was not expected; join tests with and, or");
    }
    return new Condition(sql, e.parameters);
  }

  /** Words of all fields, for people. */
  public static List<String> fields() {
    return Arrays.stream(FindField.values()).map(FindField::words).toList();
  }

  private void split() {
    if (text.length() > LONGEST) {
      throw wrong("the expression is longer than " + LONGEST + " characters");
    }
    Matcher m = TOKEN.matcher(text.strip());
    int end = 0;
    while (m.find() && m.start() == end) {
      tokens.add(m.group().strip());
      end = m.end();
    }
    if (end < text.strip().length()) {
      throw wrong("'" + text.strip().substring(end) + "' is not understood");
    }
  }

  private String expression() {
    String sql = both();
    while (take("or")) {
      sql = "(" + sql + " OR " + both() + ")";
    }
    return sql;
  }

  private String both() {
    String sql = one();
    while (take("and")) {
      sql = "(" + sql + " AND " + one() + ")";
    }
    return sql;
  }

  private String one() {
    if (++depth > DEEPEST) {
      throw wrong("more than " + DEEPEST + " brackets and nots inside each other");
    }
    try {
      if (take("not")) {
        return "(NOT coalesce(" + one() + ", 0))";
      }
      if (take("(")) {
        String sql = expression();
        if (!take(")")) {
          throw wrong("a closing bracket is missing");
        }
        return sql;
      }
      return test(field());
    } finally {
      depth--;
    }
  }

  private FindField field() {
    for (int words = 3; words > 0; words--) {
      if (at + words <= tokens.size()) {
        String name =
            String.join(" ", tokens.subList(at, at + words))
                .toLowerCase(Locale.ROOT)
                .replace('_', ' ');
        Optional<FindField> field = FindField.of(name);
        if (field.isPresent()) {
          at += words;
          return field.get();
        }
      }
    }
    throw wrong(
        "'"
            + peek()
            + "' is no field; fields are "
            + Arrays.stream(FindField.values())
                .map(FindField::words)
                .collect(Collectors.joining(", ")));
  }

  private String test(FindField field) {
    if (take("is")) {
      if (take("missing")) {
        return "(" + field.column() + " IS NULL)";
      }
      if (take("stated")) {
        return "(" + field.column() + " IS NOT NULL)";
      }
      throw wrong("after 'is' comes missing or stated, not '" + peek() + "'");
    }
    if (take("contains")) {
      if (field.kind() != FindField.Kind.TEXT) {
        throw wrong("'" + field.words() + "' is a number; contains is for text");
      }
      parameters.add(text());
      return "(instr(lower(" + field.column() + "), lower(?)) > 0)";
    }
    String sign = peek();
    if (!COMPARISONS.contains(sign)) {
      throw wrong(
          "after '" + field.words() + "' comes a comparison (= != < <= > >=), contains or is");
    }
    at++;
    if (field.kind() == FindField.Kind.TEXT) {
      parameters.add(text());
      return "(" + field.column() + " " + sign + " ? COLLATE NOCASE)";
    }
    parameters.add(number(field));
    return "(" + field.column() + " " + sign + " ?)";
  }

  private String text() {
    String token = next();
    boolean quoted = token.length() > 1 && (token.charAt(0) == '"' || token.charAt(0) == '\'');
    return quoted ? token.substring(1, token.length() - 1) : token;
  }

  private double number(FindField field) {
    String token = next();
    if (!NUMBER.matcher(token).matches()) {
      throw wrong("'" + token + "' is not a number; write 0.5, without a unit and not 0,5");
    }
    double value = Double.parseDouble(token);
    boolean percent = take("%");
    if (field.kind() == FindField.Kind.SHARE) {
      if (!percent && value > 1) {
        throw wrong("a share lies between 0 and 1; write " + token + " % for percent");
      }
      return percent ? value / 100 : value;
    }
    if (percent) {
      throw wrong("'" + field.words() + "' is not given in percent");
    }
    return value;
  }

  private String peek() {
    return at < tokens.size() ? tokens.get(at) : "the end";
  }

  private String next() {
    if (at >= tokens.size()) {
      throw wrong("a value is missing at the end");
    }
    return tokens.get(at++);
  }

  private boolean take(String word) {
    boolean there = at < tokens.size() && tokens.get(at).equalsIgnoreCase(word);
    at += there ? 1 : 0;
    return there;
  }

  private DieInputException wrong(String what) {
    return new DieInputException(
        Reason.DOCUMENT_INVALID, "The expression \"" + text + "\": " + what + ".");
  }
}
