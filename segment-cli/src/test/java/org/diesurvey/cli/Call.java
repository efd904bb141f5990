package org.diesurvey.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;

/**
 * One call of the command inside the test's process, as if both streams were pipes.
 *
 * @param code exit code
 * @param out standard output
 * @param err standard error
 */
record Call(int code, String out, String err) {

  static Call of(Object... args) {
    return with(Map.of(), false, args);
  }

  static Call with(Map<String, String> environment, boolean onTerminal, Object... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Terminal terminal =
        new Terminal(
            new PrintWriter(out),
            new PrintWriter(err),
            Terminal.mayRedraw(onTerminal, environment::get),
            Terminal.mayColour(onTerminal, environment::get),
            false,
            environment::get);
    String[] words = new String[args.length];
    for (int i = 0; i < args.length; i++) {
      words[i] = args[i].toString();
    }
    int code = Diesurvey.run(terminal, words);
    return new Call(code, out.toString(), err.toString());
  }

  /** Lines of the error stream. */
  String[] errLines() {
    return err.isEmpty() ? new String[0] : err.split("\n");
  }
}
