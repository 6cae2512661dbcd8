using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text.RegularExpressions;
using ServiceRules.Application.Library;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Packs;

/// <summary>
/// Reads the JSON files of a folder of rules out of a zip archive, into memory and within bounds. A name that could lead
/// anywhere else than into one folder refuses the archive.
/// </summary>
public static partial class PackArchive
{
    // The rules shipped take two mebibytes unpacked.
    private const int BytesMost = 32 * 1024 * 1024;

    // Those shipped unpack to eight times as much.
    private const int TimesMost = 100;

    private const string AcceptedName =
        "folders and files named with letters, digits, `.`, `_` and `-`, none beginning with `.`, with `/` between them";

    /// <summary>The files, in the order of their names; none where something is wrong with the archive.</summary>
    public static ImmutableArray<PackFile> Read(
        ReadOnlyMemory<byte> archive,
        out ImmutableArray<Diagnostic> wrong
    )
    {
        wrong = [];
        try
        {
            using var stream = new MemoryStream(archive.ToArray(), writable: false);
            using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            wrong = Faults(zip);
            var most = (int)Math.Min(BytesMost, (long)archive.Length * TimesMost);
            return wrong.IsEmpty ? Files(zip, most, out wrong) : [];
        }
        // What a broken archive says of itself may be anything.
        catch (Exception broken)
            when (broken
                    is InvalidDataException
                        or IOException
                        or NotSupportedException
                        or ArgumentException
                        or OverflowException
            )
        {
            wrong =
            [
                Wrong(
                    DiagnosticCode.CannotBeRead,
                    "",
                    "this is no zip archive that can be read",
                    "a zip archive"
                ),
            ];
            return [];
        }
    }

    private static ImmutableArray<Diagnostic> Faults(ZipArchive zip)
    {
        if (zip.Entries.Count > FolderLimits.Files)
        {
            return
            [
                Wrong(
                    DiagnosticCode.TooMuch,
                    "",
                    Counted("there are {0} files in this archive", zip.Entries.Count),
                    Counted("at most {0}", FolderLimits.Files)
                ),
            ];
        }

        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        return
        [
            .. zip
                .Entries.Select(entry => entry.FullName)
                .Select(name =>
                    !Name().IsMatch(name)
                        ? Wrong(
                            DiagnosticCode.FileNotRead,
                            "",
                            $"a file is named `{Shown(name)}`",
                            AcceptedName
                        )
                    : !seen.Add(name.TrimEnd('/'))
                        ? Wrong(
                            DiagnosticCode.FileNotRead,
                            Shown(name),
                            "two files have this name",
                            "each name once, whatever its case"
                        )
                    : null
                )
                .OfType<Diagnostic>(),
        ];
    }

    private static ImmutableArray<PackFile> Files(
        ZipArchive zip,
        int most,
        out ImmutableArray<Diagnostic> wrong
    )
    {
        wrong = [];
        var left = most;
        var files = ImmutableArray.CreateBuilder<PackFile>();
        foreach (
            var entry in zip
                .Entries.Where(entry => entry.FullName.EndsWith(".json", StringComparison.Ordinal))
                .OrderBy(entry => entry.FullName, StringComparer.Ordinal)
        )
        {
            if (Content(entry, left) is not { } content)
            {
                wrong =
                [
                    Wrong(
                        DiagnosticCode.TooMuch,
                        entry.FullName,
                        "unpacked up to this file, the archive is larger than a folder of rules",
                        Counted(
                            $"at most {BytesMost / (1024 * 1024)} MiB together, and {{0}} times the archive",
                            TimesMost
                        )
                    ),
                ];
                return [];
            }

            left -= content.Length;
            files.Add(new PackFile(entry.FullName, content));
        }

        return files.ToImmutable();
    }

    // What the archive says of a length is not believed.
    private static byte[]? Content(ZipArchiveEntry entry, int most)
    {
        using var packed = entry.Open();
        using var held = new MemoryStream();
        var block = new byte[64 * 1024];
        int count;
        while ((count = packed.Read(block)) > 0)
        {
            if (held.Length + count > most)
            {
                return null;
            }

            held.Write(block, 0, count);
        }

        return held.ToArray();
    }

    private static Diagnostic Wrong(string code, string file, string what, string right) =>
        new()
        {
            Code = code,
            Level = DiagnosticLevel.Error,
            File = file,
            Pointer = "",
            What = what,
            Right = right,
        };

    private static string Shown(string name) => name.Length > 100 ? name[..100] + "…" : name;

    private static string Counted(string words, int count) =>
        string.Format(CultureInfo.InvariantCulture, words, count);

    [GeneratedRegex(
        """\A(?:[A-Za-z0-9_-][A-Za-z0-9._-]{0,99}/){0,8}(?:[A-Za-z0-9_-][A-Za-z0-9._-]{0,99})?\z"""
    )]
    private static partial Regex Name();
}
