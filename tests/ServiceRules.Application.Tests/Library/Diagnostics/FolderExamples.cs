using System.Globalization;

namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>What can be wrong with the files of a folder.</summary>
internal static class FolderExamples
{
    public static IEnumerable<DiagnosticExample> All =>
        [
            new(
                "SR0060",
                "A misspelt name would leave its rules out, and nobody would miss them. The same is told of a link, of a folder with the name of a file, and of a file too many folders down.",
                "base/release.rule.json",
                "base/release.rules.json",
                "base/release.rule.json"
            )
            {
                Spoil = folder =>
                    File.Move(folder.At("base/release.rules.json"), folder.At("base/release.rule.json")),
            },
            new(
                "SR0061",
                "Nothing real is so large: the path is wrong, or the file is no document of a shop. Of one file a hundred problems are told one by one.",
                "sheets/large.sheet.json",
                "at most 2000 JSON files, 64 MiB together, 2000 rules and 500 limit sheets",
                "a file in which 150 members are not known"
            )
            {
                Spoil = folder =>
                    File.WriteAllText(
                        folder.At("sheets/large.sheet.json"),
                        "{ \"format\": \"limit-sheet/1\""
                            + string.Concat(
                                Enumerable
                                    .Range(0, 150)
                                    .Select(at =>
                                        string.Create(CultureInfo.InvariantCulture, $", \"a{at}\": 1")
                                    )
                            )
                            + " }"
                    ),
            },
            new(
                "SR0062",
                "A site without its register of people and locks could not be held to who did what.",
                "site-alder-reach/registers.json",
                "site-alder-reach/registers.json",
                "no such file"
            )
            {
                Spoil = folder => File.Delete(folder.At("site-alder-reach/registers.json")),
            },
            new(
                "SR0063",
                "What cannot be read is never taken to say nothing. The same is told of a file that may not be read, and of a pipe.",
                "",
                "--rules rules",
                "--rules no-such-folder"
            )
            {
                Spoil = _ => { },
                Folder = "no-such-folder",
            },
        ];
}
