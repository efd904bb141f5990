package org.diesurvey.cli;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.jar.Attributes;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.stream.Stream;

/** The program as a jar whose manifest names its libraries, as the build makes it. */
final class PackedProgram {
  private static final String TEST_LIBRARIES = "(junit|archunit|opentest4j|apiguardian|surefire).*";

  private PackedProgram() {}

  static Path make(Path folder) throws IOException {
    String all =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    Path own = Path.of(place(Diesurvey.class));
    Path tests = Path.of(place(PackedProgram.class));
    List<String> libraries = new ArrayList<>();
    for (String part : all.split(File.pathSeparator)) {
      Path path = Path.of(part).toAbsolutePath().normalize();
      String name = path.getFileName().toString();
      if (Files.isDirectory(path) && !path.equals(own) && !path.equals(tests)) {
        Path jar = folder.resolve("library-" + libraries.size() + ".jar");
        jar(path, jar, new Manifest());
        libraries.add(jar.toUri().toString());
      } else if (Files.isRegularFile(path) && !name.matches(TEST_LIBRARIES)) {
        libraries.add(path.toUri().toString());
      }
    }
    Manifest manifest = new Manifest();
    Attributes main = manifest.getMainAttributes();
    main.put(Attributes.Name.MANIFEST_VERSION, "1.0");
    main.put(Attributes.Name.MAIN_CLASS, Diesurvey.class.getName());
    main.put(Attributes.Name.CLASS_PATH, String.join(" ", libraries));
    Path jar = folder.resolve("program.jar");
    jar(own, jar, manifest);
    return jar;
  }

  private static URI place(Class<?> c) {
    return URI.create(c.getProtectionDomain().getCodeSource().getLocation().toString());
  }

  static void jar(Path classes, Path jar, Manifest manifest) throws IOException {
    manifest.getMainAttributes().putIfAbsent(Attributes.Name.MANIFEST_VERSION, "1.0");
    try (OutputStream out = Files.newOutputStream(jar);
        JarOutputStream to = new JarOutputStream(out, manifest);
        Stream<Path> all = Files.walk(classes)) {
      for (Path file : all.filter(Files::isRegularFile).sorted().toList()) {
        String name = classes.relativize(file).toString().replace(File.separatorChar, '/');
        if (!name.equals("META-INF/MANIFEST.MF")) {
          to.putNextEntry(new JarEntry(name));
          Files.copy(file, to);
          to.closeEntry();
        }
      }
    }
  }
}
