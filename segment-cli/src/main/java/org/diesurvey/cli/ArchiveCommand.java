package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.run.ArchiveCheck;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Asks an archive made by batch. */
@Command(
    name = "archive",
    description = {"Searches, checks and exports an archive made by batch.", ""},
    synopsisSubcommandLabel = "COMMAND",
    footer = {
      "",
      "Examples:",
      "  diesurvey archive find archive \"memory share > 40 %% and node = 90\"",
      "  diesurvey archive find archive --sql \"SELECT * FROM die\" > dies.csv",
      "  diesurvey archive alike archive die.tif --um-per-px 0.5",
      "  diesurvey archive check archive"
    })
final class ArchiveCommand implements Runnable {
  private final Diesurvey root;

  @Spec private CommandSpec spec;

  ArchiveCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Say what to do with the archive: find, alike, check or export.");
  }

  @Command(
      name = "find",
      description = {"Prints the photographs that an expression describes, as CSV.", ""},
      footer = {
        "",
        "An expression joins tests with and, or, not and brackets. A test is a field, a comparison"
            + " (= != < <= > >=) and a value; for text also contains; and 'is missing', 'is"
            + " stated'. Areas are in mm2, lengths in mm, pitch in um/px, node in nm; shares from 0"
            + " to 1 or with %%. Fields: memory share, macro share, logic share, pad ring share,"
            + " unclear share, damaged share, lowest confidence, die area, die width, die height,"
            + " memory area, node, pitch, regions, warnings, bits, gates, die name, revision,"
            + " layer, notes, file, path, sha256, model, version.",
        "",
        "  memory share > 40 %% and node = 90",
        "  die name contains \"demo\" and not (revision = B or warnings > 0)"
      })
  int find(
      @Parameters(paramLabel = "DIR", description = "Folder of the archive.") Path archive,
      @Parameters(paramLabel = "EXPRESSION", arity = "0..1", description = "See below.")
          String expression,
      @Option(
              names = "--sql",
              paramLabel = "STATEMENT",
              description =
                  "A statement of SQLite's SQL instead; it can only read. The tables and views are"
                      + " described by: --sql \"SELECT sql FROM sqlite_master\".")
          String sql) {
    if ((expression == null) == (sql == null)) {
      throw new WrongOption("EXPRESSION or --sql", "must be given, and only one of them");
    }
    ArchiveTable found =
        sql == null
            ? ArchiveTable.find(archive, expression)
            : ArchiveTable.read(archive, sql, List.of());
    root.terminal().out().print(root.terminal().shown(found.csv()));
    root.terminal().out().flush();
    root.terminal().remark(found.rows().size() + (found.rows().size() == 1 ? " row" : " rows"));
    return ExitCode.DONE;
  }

  @Command(
      name = "check",
      description = {
        "Holds every file of an archive against its checksum and names those that are missing or"
            + " altered, complete surveys that the database does not know, and files that are not"
            + " of the archive. What a batch that was ended had left half done is put in order."
            + " Says what the next batch would do; removes nothing of yours.",
        ""
      },
      exitCodeListHeading = "%nExit codes:%n",
      exitCodeList = {
        "0:all files are as they were written",
        "1:files are missing, altered or unknown",
        "2:there is no archive"
      },
      footer = {
        "",
        "To repair: move what is altered away and call batch again; a database that is missing or"
            + " damaged is made anew from the folders below photos/. Each folder has a list for"
            + " sha256sum -c, too."
      })
  int check(@Parameters(paramLabel = "DIR", description = "Folder of the archive.") Path archive) {
    ArchiveCheck.Result result = ArchiveCheck.of(archive);
    for (ArchiveCheck.Finding f : result.findings()) {
      root.terminal().result(f.fault().name().toLowerCase(Locale.ROOT) + "  " + f.path());
    }
    result.remarks().forEach(root.terminal()::remark);
    root.terminal()
        .remark(
            counted(result.surveys(), "survey")
                + ", "
                + counted(result.files(), "file")
                + " checked, "
                + counted(result.findings().size(), "fault"));
    return result.findings().isEmpty() ? ExitCode.DONE : ExitCode.SOME_REJECTED;
  }

  private static String counted(int number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  @Command(
      name = "export",
      description = {
        "Makes the index, the summary, the CSV tables with datapackage.json and"
            + " ro-crate-metadata.json of an archive again; batch does so at its end.",
        ""
      })
  int export(@Parameters(paramLabel = "DIR", description = "Folder of the archive.") Path archive) {
    ArchivePages.write(archive, Created.moment(root.terminal()));
    root.terminal().result("archive: " + archive.resolve("index.html"));
    return ExitCode.DONE;
  }
}
