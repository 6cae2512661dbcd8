using System.CommandLine;
using System.Diagnostics.CodeAnalysis;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Reports;
using ServiceRules.Application.SafeWork;
using ServiceRules.Cli.Printing;

namespace ServiceRules.Cli.Setup;

/// <summary>Files what a report rests on before it is issued, and the report after, where a ledger is named.</summary>
internal sealed class ReportFiling : IDisposable
{
    public const string ProofEnding = ".proof";

    private readonly Session session;
    private readonly string file;
    private readonly LedgerInUse inUse;

    private readonly bool superseded;

    private ReportFiling(Session session, string file, LedgerInUse inUse, bool superseded) =>
        (this.session, this.file, this.inUse, this.superseded) = (session, file, inUse, superseded);

    /// <summary>Asked for by name: a version that another one followed.</summary>
    public static Option<bool> Superseded { get; } =
        new("--superseded")
        {
            Description = "Report this version although a newer one is filed in the ledger.",
        };

    /// <summary>Null where no ledger is named: the report then says that it is not filed.</summary>
    /// <exception cref="InputException">The ledger is not the one that its checkpoints speak of.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "The folder passes to the object given back.")]
    public static ReportFiling? Open(ParseResult parsed, Session session, FileInfo file) =>
        parsed.GetValue(LedgerPlace.Option) is null
            ? null
            : new ReportFiling(
                session,
                file.ToString(),
                LedgerInUse.OrBegun(parsed, session),
                parsed.GetValue(Superseded)
            );

    /// <summary>Files record and assessment; null when they may not be filed, which is told.</summary>
    public FilingProofs? Begin(Assessed assessed, out int exitCode)
    {
        if (FileRecord.Superseding(inUse.Ledger.Log, assessed) is { } newer)
        {
            var told =
                $"{file}: this is not the newest version of `{assessed.Record.Id}`: entry {newer.Index} came after it";
            session.Error.WriteLine(
                superseded
                    ? told
                    : $"{told}; accepted: the newest version, or --superseded to report this one"
            );
            if (!superseded)
            {
                exitCode = ExitCode.NotGood;
                return null;
            }
        }

        var outcome = new FileRecord(inUse.Ledger, inUse.BringsBack).File(assessed, null);
        exitCode = Tell(assessed, outcome);
        if (outcome is not FilingOutcome.Filed filed)
        {
            return null;
        }

        return inUse.Ledger.Proofs(filed);
    }

    /// <summary>
    /// Files the finished report and gives its own proof, which cannot stand inside it; null when it may not be filed,
    /// which is told.
    /// </summary>
    public byte[]? End(Assessed assessed, byte[] report, out int exitCode)
    {
        var outcome = new FileReport(inUse.Ledger, inUse.BringsBack).File(assessed, report, null);
        exitCode = Tell(assessed, outcome);
        return ProofOf(outcome);
    }

    /// <summary>Files the finished report of a period and gives its proof; null when it may not be filed, which is told.</summary>
    public byte[]? End(SafeWorkPeriod period, byte[] report, out int exitCode)
    {
        var outcome = new FilePeriodReport(inUse.Ledger, !inUse.Sites.IsEmpty, inUse.BringsBack).File(
            period,
            report
        );
        exitCode = FilingPrint.Write(session, file, FilePeriodReport.SubjectOf(period), outcome);
        return ProofOf(outcome);
    }

    public void Dispose() => inUse.Dispose();

    private byte[]? ProofOf(FilingOutcome outcome) =>
        outcome is FilingOutcome.Filed filed
            ? Encoding.UTF8.GetBytes(inUse.Ledger.ProveWithEntry(filed.Entries[^1].Entry))
            : null;

    private int Tell(Assessed assessed, FilingOutcome outcome) =>
        FilingPrint.Write(session, file, assessed.Record.Id.Text, outcome);
}
