using ServiceRules.Application.Comparing;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Host.Packs;

/// <summary>What stored records would come to by other packs and sheets.</summary>
/// <param name="From">Digest of what is in force.</param>
/// <param name="To">Digest of what it is compared with.</param>
/// <param name="Records">How many records were judged by both.</param>
/// <param name="NotKept">How many could not be, since their content is no longer kept.</param>
/// <param name="Changed">How many would come out otherwise.</param>
/// <param name="Flips">Rules on subjects that would come out otherwise.</param>
/// <param name="Jobs">Jobs by what was and would be their disposition, where these differ.</param>
/// <param name="Changes">What the two say differently.</param>
/// <param name="Turned">The records that would come out otherwise, the newest first.</param>
internal sealed record ComparisonAnswer(
    string From,
    string To,
    int Records,
    int NotKept,
    int Changed,
    int Flips,
    IReadOnlyList<ComparisonAnswer.OfJobs> Jobs,
    IReadOnlyList<ComparisonAnswer.Change> Changes,
    IReadOnlyList<ComparisonAnswer.Compared> Turned
)
{
    // More than anyone reads; `rules compare` tells all.
    private const int ChangesMost = 500;

    public static ComparisonAnswer Of(string from, string to, StoredCompared compared) =>
        new(
            from,
            to,
            compared.Totals.Records,
            compared.NotKept,
            compared.Totals.Changed,
            compared.Totals.Flips,
            [.. compared.Totals.Jobs.Select(one => new OfJobs(one.Was, one.WouldBe, one.Jobs))],
            [.. compared.Changes.Take(ChangesMost).Select(Change.From)],
            [.. compared.Turned.Select(Compared.Of)]
        );

    /// <summary>Jobs that would go from one disposition to another; none: they cannot be judged.</summary>
    internal sealed record OfJobs(Disposition? Was, Disposition? WouldBe, int Jobs);

    /// <summary>One thing said differently.</summary>
    internal sealed record Change(
        ChangeKind Kind,
        string Of,
        string? Quantity,
        IReadOnlyList<PartChange> Parts
    )
    {
        public static Change From(FolderChange change) =>
            new(change.Kind, change.Of, change.Quantity?.ToString(), change.Parts);
    }

    /// <summary>One record.</summary>
    internal sealed record Compared(
        string Record,
        DateOnly Date,
        string Machine,
        Disposition? Was,
        Disposition? WouldBe,
        IReadOnlyList<string> MissingSheets,
        IReadOnlyList<ToldFlip> Flips
    )
    {
        public static Compared Of(RecordCompared compared) =>
            new(
                compared.Record.Id.Text,
                compared.Record.Date,
                compared.Record.Machine.Id.Text,
                compared.Was?.Job.Disposition,
                compared.WouldBe?.Job.Disposition,
                compared.MissingSheets,
                [.. compared.Flips.Select(ToldFlip.From)]
            );
    }

    /// <summary>One rule on one subject.</summary>
    internal sealed record ToldFlip(
        string Rule,
        string Title,
        string Subject,
        Outcome? Was,
        Outcome? WouldBe,
        IReadOnlyList<Cause> Causes
    )
    {
        public static ToldFlip From(Flip flip) =>
            new(
                flip.Rule,
                flip.Title,
                flip.Subject.Key,
                Outcome.Of(flip.Was),
                Outcome.Of(flip.WouldBe),
                [
                    .. flip.Causes.Select(cause => new Cause(
                        cause.Kind,
                        cause.IsAlone,
                        [.. cause.Changes.Select(change => change.Of)]
                    )),
                ]
            );
    }

    /// <summary>What came of a rule; none: it was not judged.</summary>
    internal sealed record Outcome(Verdict Verdict, Effect Effect, string Statement)
    {
        public static Outcome? Of(Finding? finding) =>
            finding is null ? null : new(finding.Verdict, finding.Effect, finding.Statement);
    }

    /// <summary>What it comes from: the kind of change, whether that alone does it, and what was changed.</summary>
    internal sealed record Cause(ChangeKind Kind, bool IsAlone, IReadOnlyList<string> Of);
}
