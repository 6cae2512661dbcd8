using System.CommandLine;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Json;

namespace ServiceRules.Cli.Setup;

/// <summary>Which column of a table goes where.</summary>
internal static class GivenMapping
{
    /// <summary>A new option: it means something else to each command.</summary>
    public static Option<FileInfo?> Option(string description) =>
        new("--mapping") { Description = description, HelpName = "MAPPING.json" };

    /// <exception cref="InputException">It cannot be read.</exception>
    public static ImportMapping Read(FileInfo file)
    {
        var read = ImportMappingFormat.Current.Read(
            InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes)
        );
        return read.TryGet(out var mapping, out var problems)
            ? mapping
            : throw new InputException([.. problems.Lines().Select(line => $"{file}: {line}")]);
    }
}
