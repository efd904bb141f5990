package org.diesurvey;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaMember;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The map of the library: which package may use which. */
class ArchitectureTest {
  /**
   * What each package may use: packages of the library, all of them before it in the order of the
   * data flow, then libraries of others. What is not named here is not used. A package inside
   * another belongs to that, unless it has a line of its own.
   */
  private static final List<String> TABLE =
      List.of(
          "files:",
          "quantity: | math",
          "raster:",
          "vision: raster | opencv",
          "photo.file:",
          "photo.tiff: photo.file | zstd",
          "photo: files raster photo.file photo.tiff",
          "calibration: files quantity raster vision photo | json math",
          "preparation.edges: raster vision photo",
          "preparation: raster vision photo preparation.edges | math",
          "inspection: quantity raster vision photo calibration preparation | json math",
          "tiles: raster",
          "features.damage: raster vision preparation tiles | math",
          "features: files raster vision preparation tiles features.damage",
          "classification: tiles",
          "classification.model: raster vision preparation.edges tiles features classification |"
              + " json math smile",
          "classification.training: preparation.edges tiles features classification"
              + " classification.model | smile",
          "regions.ring: raster preparation.edges tiles features classification",
          "regions: raster vision preparation.edges tiles features.damage features classification"
              + " classification.model regions.ring | jts",
          "measures: quantity classification | jts",
          "estimates: quantity | math",
          "survey: quantity photo calibration preparation.edges preparation classification"
              + " estimates",
          "survey.json: quantity photo calibration preparation.edges preparation classification"
              + " estimates survey | json",
          "interchange: quantity raster photo calibration classification estimates survey | jts",
          "interchange.svg: raster classification survey interchange",
          "interchange.geojson: quantity classification estimates survey interchange | json",
          "interchange.gds: raster classification survey interchange | jts",
          "interchange.annotation: classification survey interchange interchange.svg | json",
          "interchange.reading: survey survey.json interchange interchange.svg"
              + " interchange.geojson interchange.gds interchange.annotation | json",
          "interchange.layout: raster vision survey interchange interchange.gds | json",
          "pipeline: quantity raster vision photo calibration preparation.edges preparation"
              + " inspection tiles features.damage features classification classification.model"
              + " classification.training regions.ring regions measures estimates survey"
              + " interchange interchange.reading | jts",
          "training: raster photo preparation.edges preparation tiles features classification"
              + " classification.model classification.training regions pipeline | jts",
          "scoring: quantity raster classification estimates survey interchange pipeline |"
              + " json jts",
          "comparison.document: quantity raster calibration preparation.edges classification survey"
              + " | json",
          "comparison.registration: quantity raster vision photo calibration preparation"
              + " classification survey pipeline comparison.document | math",
          "comparison.tiles: raster vision tiles classification classification.model survey"
              + " comparison.registration | math jts",
          "comparison.changes: quantity raster vision photo calibration preparation.edges"
              + " classification classification.model estimates survey comparison.document"
              + " comparison.registration comparison.tiles",
          "comparison: quantity raster photo calibration preparation features classification"
              + " classification.model survey pipeline scoring comparison.document"
              + " comparison.registration comparison.tiles comparison.changes",
          "comparison.training: classification.model comparison.document comparison.registration"
              + " comparison.tiles comparison.changes comparison",
          "report.text: quantity photo calibration classification estimates survey"
              + " comparison.document",
          "report.picture: files quantity raster photo calibration inspection"
              + " classification survey interchange comparison.document comparison report.text |"
              + " jts",
          "report.table: quantity photo classification estimates survey comparison.document"
              + " report.text | json csv",
          "report.page: files quantity photo calibration preparation.edges"
              + " classification estimates survey survey.json comparison.document comparison.tiles"
              + " report.text report.picture | json",
          "report.pdf: photo classification survey interchange comparison.document"
              + " report.text report.picture report.page | pdf",
          "report: files quantity photo survey survey.json interchange interchange.svg"
              + " interchange.geojson interchange.gds interchange.annotation comparison.document"
              + " comparison.registration comparison report.text report.picture report.table"
              + " report.page report.pdf",
          "archive: files photo survey pipeline",
          "archive.store: files quantity photo calibration classification estimates survey"
              + " survey.json pipeline archive | json sqlite",
          "archive.query: photo survey survey.json comparison.document comparison.registration"
              + " archive.store | csv",
          "archive.pages: files report.picture report.page report.pdf archive.store archive.query"
              + " | json",
          "archive.worker: files quantity photo calibration survey pipeline report archive"
              + " archive.store archive.pages | json",
          "archive.run: files calibration estimates pipeline archive archive.store archive.query"
              + " archive.pages | csv");

  private static final Map<String, List<String>> LIBRARIES =
      Map.of(
          "json", List.of("com.fasterxml.jackson.."),
          "math", List.of("org.apache.commons.math3.."),
          "jts", List.of("org.locationtech.jts.."),
          "opencv", List.of("org.opencv..", "nu.pattern.."),
          "smile", List.of("smile.."),
          "csv", List.of("org.apache.commons.csv.."),
          "pdf", List.of("org.apache.pdfbox..", "org.apache.fontbox.."),
          "zstd", List.of("io.airlift.compress.."),
          "sqlite", List.of("org.sqlite.."));

  private static final List<String> JDK = List.of("java..", "javax..", "org.w3c..", "org.xml..");

  private static final String ROOT = "org.diesurvey";

  private static final JavaClasses CORE =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(location -> !location.contains("/jmh"))
          .withImportOption(location -> !location.contains("testdata-synthetic"))
          .importPackages(ROOT);

  /** The name at the beginning of a line of the table. */
  private static String name(String line) {
    return line.substring(0, line.indexOf(':'));
  }

  private static List<String> names(String line, boolean libraries) {
    String uses = line.substring(line.indexOf(':') + 1);
    int bar = uses.indexOf('|') < 0 ? uses.length() : uses.indexOf('|');
    String part =
        libraries ? uses.substring(Math.min(uses.length(), bar + 1)) : uses.substring(0, bar);
    return Stream.of(part.trim().split(" ")).filter(n -> !n.isEmpty()).toList();
  }

  private static final List<String> ORDER = TABLE.stream().map(ArchitectureTest::name).toList();

  static Stream<String> table() {
    return TABLE.stream();
  }

  @Test
  void theImport_seesTheLibrary() {
    Assertions.assertTrue(CORE.contain(DieInputException.class), "nothing was imported");
  }

  /** The line that a package belongs to: the longest name that is the package or around it. */
  private static String line(String packageName) {
    return ORDER.stream()
        .filter(n -> (packageName + ".").startsWith(ROOT + "." + n + "."))
        .max(Comparator.comparingInt(String::length))
        .orElse("");
  }

  private static DescribedPredicate<JavaClass> of(String... names) {
    Set<String> lines = Set.of(names);
    return DescribedPredicate.describe(
        "reside in " + lines, c -> lines.contains(line(c.getPackageName())));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("table")
  void eachPackage_usesOnlyWhatTheTableNames(String line) {
    List<String> others = new ArrayList<>(JDK);
    others.add(ROOT);
    names(line, true).forEach(n -> others.addAll(LIBRARIES.get(n)));
    List<String> ours = new ArrayList<>(names(line, false));
    ours.add(name(line));
    check(
        classes()
            .that(of(name(line)))
            .should()
            .onlyDependOnClassesThat(
                JavaClass.Predicates.resideInAnyPackage(others.toArray(String[]::new))
                    .or(of(ours.toArray(String[]::new)))
                    .or(DescribedPredicate.describe("primitive arrays", c -> c.isArray()))
                    .or(DescribedPredicate.describe("primitives", c -> c.isPrimitive()))));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("table")
  void theTable_namesOnlyEarlierPackages_andNoneThatIsNotUsed(String line) {
    List<String> before = ORDER.subList(0, ORDER.indexOf(name(line)));
    for (String used : names(line, false)) {
      Assertions.assertTrue(before.contains(used), name(line) + " comes before " + used);
      Assertions.assertTrue(
          uses(name(line), p -> line(p).equals(used)), name(line) + " does not use " + used);
    }
    for (String library : names(line, true)) {
      String prefix = LIBRARIES.get(library).get(0).replace("..", "");
      Assertions.assertTrue(
          uses(name(line), p -> p.startsWith(prefix)), name(line) + " does not use " + library);
    }
  }

  private static boolean uses(String name, Predicate<String> packages) {
    return CORE.stream()
        .filter(c -> line(c.getPackageName()).equals(name))
        .flatMap(c -> c.getDirectDependenciesFromSelf().stream())
        .anyMatch(d -> packages.test(d.getTargetClass().getPackageName()));
  }

  @Test
  void everyPackage_isInTheTable() {
    for (JavaClass c : CORE) {
      Assertions.assertTrue(
          c.getPackageName().equals(ROOT) || !line(c.getPackageName()).isEmpty(),
          "package not in the table of ArchitectureTest: " + c.getName());
    }
  }

  @Test
  void theRootPackage_usesNoOtherPackage() {
    check(
        noClasses()
            .that()
            .resideInAPackage(ROOT)
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(ORDER.stream().map(ArchitectureTest::tree).toArray(String[]::new)));
  }

  @Test
  void packages_haveNoCycles() {
    check(slices().matching(ROOT + ".(**)").should().beFreeOfCycles());
  }

  @Test
  void vision_showsNoMatrixInASignature() {
    check(
        classes()
            .that()
            .resideInAPackage(tree("vision"))
            .and()
            .arePublic()
            .should(haveNoMatInSignatures()));
  }

  @Test
  void theLibrary_doesNotPrintOrExit() {
    check(noClasses().should().accessField(System.class, "out"));
    check(noClasses().should().accessField(System.class, "err"));
    check(noClasses().should().callMethod(System.class, "exit", int.class));
  }

  @Test
  void theLibrary_doesNotUseJavaSerialisation() {
    check(
        noClasses()
            .should()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.io.ObjectInputStream")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.io.ObjectOutputStream"));
  }

  /** One place knows what may be replaced and removed; the library of OpenCV unpacks itself. */
  @Test
  void disks_areChangedOnlyInFiles() {
    check(
        noClasses()
            .that()
            .resideOutsideOfPackages(tree("files"))
            .and()
            .doNotHaveSimpleName("NativeLibrary")
            .should()
            .callMethodWhere(
                DescribedPredicate.describe(
                    "it changes a disk",
                    call ->
                        call.getTargetOwner().isEquivalentTo(java.nio.file.Files.class)
                            && CHANGES.contains(call.getName()))));
    for (Class<?> writer :
        List.of(java.io.FileOutputStream.class, java.io.FileWriter.class, PrintWriter.class)) {
      check(
          noClasses()
              .that()
              .resideOutsideOfPackage(tree("files"))
              .should()
              .callConstructor(writer, java.io.File.class));
    }
  }

  private static final List<String> CHANGES =
      List.of(
          "write",
          "writeString",
          "newOutputStream",
          "newBufferedWriter",
          "newByteChannel",
          "move",
          "copy",
          "delete",
          "deleteIfExists",
          "createFile",
          "createDirectory",
          "createDirectories",
          "createTempFile",
          "createTempDirectory",
          "createLink",
          "createSymbolicLink");

  @Test
  void records_haveNoArrayComponents() {
    check(classes().that().areRecords().should(haveNoArrayFields()));
  }

  private static void check(ArchRule rule) {
    rule.allowEmptyShould(true).check(CORE);
  }

  private static String tree(String name) {
    return ROOT + "." + name + "..";
  }

  private static ArchCondition<JavaClass> haveNoArrayFields() {
    return new ArchCondition<>("have no array components") {
      @Override
      public void check(JavaClass type, ConditionEvents events) {
        for (JavaField f : type.getFields()) {
          if (!f.getModifiers().contains(JavaModifier.STATIC) && f.getRawType().isArray()) {
            events.add(SimpleConditionEvent.violated(f, f.getFullName() + " is an array"));
          }
        }
      }
    };
  }

  private static ArchCondition<JavaClass> haveNoMatInSignatures() {
    return new ArchCondition<>("show no OpenCV type in a non-private signature") {
      @Override
      public void check(JavaClass type, ConditionEvents events) {
        for (JavaMember m : type.getMembers()) {
          if (!m.getModifiers().contains(JavaModifier.PRIVATE)
              && !m.getModifiers().contains(JavaModifier.SYNTHETIC)
              && types(m).anyMatch(t -> t.getPackageName().startsWith("org.opencv"))) {
            events.add(SimpleConditionEvent.violated(m, m.getFullName() + " shows an OpenCV type"));
          }
        }
      }
    };
  }

  /** All types that a signature names, those in angle brackets included. */
  private static Stream<JavaClass> types(JavaMember member) {
    if (member instanceof JavaCodeUnit unit) {
      return Stream.concat(unit.getParameterTypes().stream(), Stream.of(unit.getReturnType()))
          .flatMap(t -> t.getAllInvolvedRawTypes().stream());
    }
    return member instanceof JavaField f
        ? f.getType().getAllInvolvedRawTypes().stream()
        : Stream.empty();
  }
}
