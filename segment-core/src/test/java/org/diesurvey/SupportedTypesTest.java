package org.diesurvey;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What programs of others may rest on. */
class SupportedTypesTest {
  private static final Path GUIDE = Path.of("docs/library.md");

  /** Results that also carry what they were worked out from, for pages and pictures. */
  private static final Set<String> WORKING =
      Set.of("SurveyResult", "ComparisonResult", "ComparisonSide");

  private final JavaClasses library =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("org.diesurvey");

  private static boolean ours(JavaClass c) {
    return c.getPackageName().startsWith("org.diesurvey")
        && !c.getPackageName().startsWith("org.diesurvey.synthetic");
  }

  /** A nested type is supported if the one around it is. */
  private static boolean supported(JavaClass c) {
    return c.isAnnotatedWith(Supported.class)
        || c.getEnclosingClass().map(SupportedTypesTest::supported).orElse(false);
  }

  @Test
  void theExamples_needNothingElse() {
    JavaClasses examples = new ClassFileImporter().importPackages("org.diesurvey.examples");
    classes()
        .should()
        .onlyDependOnClassesThat(
            DescribedPredicate.describe(
                "are supported, or are none of ours",
                c ->
                    !ours(c)
                        || c.getPackageName().equals("org.diesurvey.examples")
                        || supported(c)))
        .check(examples);
  }

  /** Who reads a survey, or a comparison, reads supported types all the way down. */
  @Test
  void whatSupportedRecordsHold_isSupported() {
    classes()
        .that(
            DescribedPredicate.describe(
                "are public supported records",
                c ->
                    c.isRecord()
                        && c.getModifiers().contains(JavaModifier.PUBLIC)
                        && ours(c)
                        && supported(c)
                        && !WORKING.contains(c.getSimpleName())))
        .should(
            new ArchCondition<JavaClass>("hold supported types") {
              @Override
              public void check(JavaClass record, ConditionEvents events) {
                for (JavaField f : record.getFields()) {
                  boolean component = !f.getModifiers().contains(JavaModifier.STATIC);
                  for (JavaClass held : f.getType().getAllInvolvedRawTypes()) {
                    JavaClass type = held.getBaseComponentType();
                    if (component && ours(type) && !supported(type)) {
                      events.add(
                          SimpleConditionEvent.violated(
                              f, f.getFullName() + " is a " + type.getName()));
                    }
                  }
                }
              }
            })
        .check(library);
  }

  /** The table of the guide is what the marks say. */
  @Test
  void theGuide_namesThemAll() throws IOException {
    TreeSet<String> marked =
        library.stream()
            .filter(c -> c.isAnnotatedWith(Supported.class))
            .map(JavaClass::getSimpleName)
            .collect(Collectors.toCollection(TreeSet::new));
    String text = Files.readString(GUIDE);
    String table = text.substring(text.indexOf("## What a caller may count on"));
    TreeSet<String> named = new TreeSet<>();
    Matcher m = Pattern.compile("`([A-Z]\\w+)`").matcher(table);
    while (m.find()) {
      named.add(m.group(1));
    }
    named.remove("Supported");
    assertEquals(marked, named);
  }
}
