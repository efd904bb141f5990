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
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The map of the library: which package may use which. */
class ArchitectureTest {
  /** Packages in the order of the data flow; each may use only those before it. */
  private static final List<String> ORDER =
      List.of(
          "files",
          "quantity",
          "raster",
          "vision",
          "photo",
          "calibration",
          "preparation",
          "inspection",
          "tiles",
          "features",
          "classification",
          "regions",
          "measures",
          "estimates",
          "survey",
          "interchange",
          "pipeline",
          "scoring",
          "comparison",
          "report",
          "archive");

  /** Packages that may use Commons Math. */
  private static final List<String> MATHEMATICAL =
      List.of(
          "quantity",
          "calibration",
          "preparation",
          "features",
          "classification",
          "inspection",
          "measures",
          "estimates",
          "comparison",
          "scoring");

  private static final String ROOT = "org.diesurvey";

  private static final JavaClasses CORE =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(location -> !location.contains("/jmh"))
          .withImportOption(location -> !location.contains("testdata-synthetic"))
          .importPackages(ROOT);

  static Stream<String> packages() {
    return ORDER.stream();
  }

  @Test
  void theImport_seesTheLibrary() {
    Assertions.assertTrue(CORE.contain(DieInputException.class), "nothing was imported");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("packages")
  void eachPackage_usesOnlyPackagesBeforeIt(String name) {
    String[] later =
        ORDER.subList(ORDER.indexOf(name) + 1, ORDER.size()).stream()
            .map(ArchitectureTest::tree)
            .toArray(String[]::new);
    if (later.length > 0) {
      check(
          noClasses()
              .that()
              .resideInAPackage(tree(name))
              .should()
              .dependOnClassesThat()
              .resideInAnyPackage(later));
    }
  }

  @Test
  void everyPackage_isInTheTable() {
    Set<String> known = new HashSet<>(ORDER);
    for (JavaClass c : CORE) {
      String rest = c.getPackageName().substring(ROOT.length());
      if (!rest.isEmpty()) {
        String first = rest.substring(1).split("\\.", 2)[0];
        Assertions.assertTrue(
            known.contains(first), "package not in the table of ArchitectureTest: " + c.getName());
      }
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
    check(slices().matching(ROOT + ".(*)..").should().beFreeOfCycles());
  }

  @Test
  void openCv_isUsedOnlyInVision() {
    onlyIn("org.opencv..", "vision");
    onlyIn("nu.pattern..", "vision");
  }

  @Test
  void smile_isUsedOnlyInClassification() {
    onlyIn("smile..", "classification");
  }

  @Test
  void commonsMath_isUsedOnlyWhereNamed() {
    onlyIn("org.apache.commons.math3..", MATHEMATICAL.toArray(String[]::new));
  }

  @Test
  void pdfBox_isUsedOnlyInReport() {
    onlyIn("org.apache.pdfbox..", "report");
    onlyIn("org.apache.fontbox..", "report");
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

  private static void onlyIn(String library, String... packages) {
    String[] allowed = Stream.of(packages).map(ArchitectureTest::tree).toArray(String[]::new);
    check(
        noClasses()
            .that()
            .resideOutsideOfPackages(allowed)
            .should()
            .dependOnClassesThat()
            .resideInAPackage(library));
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
