using System.CommandLine;
using System.Text;
using ServiceRules.Application.Reports;

namespace ServiceRules.Cli.Setup;

/// <summary>What is asked of a report on the command line beyond being genuine.</summary>
internal static class ReportDemands
{
    private const string Log = "log";
    private const string Timestamp = "timestamp";

    /// <summary>Keys, proofs and checkpoints are far below.</summary>
    private const int TextMost = 256 * 1024;

    private static readonly Option<string[]> Require = Accepting(
        new("--require")
        {
            Description = "log, timestamp: a report without it fails. May be given more than once.",
            HelpName = "log|timestamp",
        }
    );

    private static readonly Option<FileInfo?> LogKey = new("--log-key")
    {
        Description =
            "The log's key as its keeper gave it (PEM, or a verifier key), held against the one in the report.",
        HelpName = "FILE",
    };

    private static readonly Option<FileInfo?> Proof = new("--proof")
    {
        Description = "The report's own proof, which stands beside it: that this very file was filed.",
        HelpName = "OUT.pdf.proof",
    };

    private static readonly Option<FileInfo?> Checkpoint = new("--checkpoint")
    {
        Description =
            "A checkpoint of the log seen elsewhere, of the same size or later: whether it continues the report's.",
        HelpName = "FILE",
    };

    private static readonly Option<FileInfo?> Growth = new("--growth")
    {
        Description = "With a later --checkpoint: the proof that the log only grew since the report's.",
        HelpName = "FILE",
    };

    public static IReadOnlyList<Option> All { get; } = [Require, LogKey, Proof, Checkpoint, Growth];

    /// <exception cref="InputException">A file given cannot be read.</exception>
    public static ReportDemand Of(ParseResult parsed)
    {
        if (parsed.GetValue(Growth) is not null && parsed.GetValue(Checkpoint) is null)
        {
            throw new InputException("--growth leads to a checkpoint; accepted: with --checkpoint FILE");
        }

        return new ReportDemand
        {
            Required = [.. (parsed.GetValue(Require) ?? []).Select(NameOf).Distinct(StringComparer.Ordinal)],
            Log = new LogDemand
            {
                Key = Read(parsed, LogKey) is { } key ? Encoding.UTF8.GetString(key) : null,
                Proof = Given(parsed, Proof),
                Checkpoint = Given(parsed, Checkpoint),
                Growth = Given(parsed, Growth),
            },
        };
    }

    private static string NameOf(string word) =>
        word switch
        {
            Log => VerifyReport.Filed,
            Timestamp => VerifyReport.Timestamp,
            _ => throw new ArgumentOutOfRangeException(nameof(word), word, null),
        };

    private static ReadOnlyMemory<byte>? Given(ParseResult parsed, Option<FileInfo?> option) =>
        Read(parsed, option) is { } bytes ? bytes : default(ReadOnlyMemory<byte>?);

    private static byte[]? Read(ParseResult parsed, Option<FileInfo?> option) =>
        parsed.GetValue(option) is { } file ? InputFile.ReadUpTo(file.FullName, TextMost) : null;

    private static Option<string[]> Accepting(Option<string[]> option)
    {
        option.AcceptOnlyFromAmong(Log, Timestamp);
        return option;
    }
}
