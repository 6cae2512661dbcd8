using System.CommandLine;
using System.Text;
using ServiceRules.Application.Reports;
using ServiceRules.Evidence.Log;

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
                Key = Read(parsed, LogKey, KeyOf),
                Proof = Read(parsed, Proof, ProofOf),
                Checkpoint = Read(parsed, Checkpoint, CheckpointOf),
                Growth = Read(parsed, Growth, GrowthOf),
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

    private static (GivenLogKey?, string?) KeyOf(byte[] bytes) =>
        GivenLogKey.TryParse(Encoding.UTF8.GetString(bytes), out var key, out var fault)
            ? (key, null)
            : (null, fault.ToString());

    private static (GivenReportProof?, string?) ProofOf(byte[] bytes) =>
        GivenReportProof.TryParse(bytes, out var proof, out var fault) ? (proof, null) : (null, fault);

    private static (SignedCheckpoint?, string?) CheckpointOf(byte[] bytes) =>
        SignedCheckpoint.TryParse(bytes, out var checkpoint, out var faults)
            ? (checkpoint, null)
            : (null, string.Join("; ", faults));

    private static (GrowthProof?, string?) GrowthOf(byte[] bytes) =>
        GrowthProof.TryParse(bytes, out var growth, out var faults)
            ? (growth, null)
            : (null, string.Join("; ", faults));

    private static T? Read<T>(
        ParseResult parsed,
        Option<FileInfo?> option,
        Func<byte[], (T? Value, string? Fault)> reading
    )
        where T : class
    {
        if (parsed.GetValue(option) is not { } file)
        {
            return null;
        }

        var (value, fault) = reading(InputFile.ReadUpTo(file.FullName, TextMost));
        return value ?? throw new InputException($"`{file}` ({option.Name}) cannot be used: {fault}");
    }

    private static Option<string[]> Accepting(Option<string[]> option)
    {
        option.AcceptOnlyFromAmong(Log, Timestamp);
        return option;
    }
}
