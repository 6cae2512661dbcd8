using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>A finding before it is known what follows from the others.</summary>
internal sealed record DraftFinding
{
    public required Rule Rule { get; init; }

    public required UnitFrame? Unit { get; init; }

    public required Finding Finding { get; init; }

    /// <summary>Whether the tasks ask for it; else it was judged only because of what was read.</summary>
    public required bool IsAsked { get; init; }

    /// <summary>What it would do if another finding took its proof away.</summary>
    public required LetOut IfUnproven { get; init; }

    /// <summary>Stable text that identifies a finding within a job.</summary>
    public string Key => KeyOf(Finding.Rule, Finding.Subject);

    public static string KeyOf(string rule, Subject subject) => $"{rule}@{subject.Key}";

    /// <summary>Quantities of the unit that this finding shows to be stale.</summary>
    public ImmutableArray<MeasuredQuantity> ShowsStale()
    {
        if (Unit is null || !IsAsked || Finding.Verdict is Verdict.Met or Verdict.NotApplicable)
        {
            return [];
        }

        var compared = Finding
            .Comparisons.Where(comparison => comparison.Reason == FindingReason.Stale)
            .Select(comparison => comparison.Quantity)
            .Distinct()
            .Order()
            .ToImmutableArray();
        // A finding on two quantities that does not say which of them is stale shows neither: each is judged by itself.
        return
            compared.IsEmpty
            && Finding.Reason == FindingReason.Stale
            && CheckReach.JudgedAsLeft(Rule.Check) is [var only]
            ? [only]
            : compared;
    }

    /// <summary>Quantities that settling this finding would upset, if it is still to be settled.</summary>
    public ImmutableArray<MeasuredQuantity> WouldUpset() =>
        Unit is { } unit && Turned() is { } adjuster ? OwnQuantity.Upsets(unit.Sheet, adjuster) : [];

    /// <summary>The quantity that its remedy sets by turning or moving something, if it does.</summary>
    public MeasuredQuantity? Sets() =>
        RemedyTurns() is { } adjuster ? AdjustedQuantity.SetBy(adjuster) : null;

    private AdjusterKind? Turned() =>
        RemedyTurns()
        ?? (
            CheckReach.JudgedAsLeft(Rule.Check) is [var quantity, ..]
                ? AdjustedQuantity.FinelySetBy(quantity)
                : null
        );

    private AdjusterKind? RemedyTurns() =>
        Finding.Remedy switch
        {
            Remedy.Turn turn => turn.Adjuster,
            Remedy.OpenUntilFree open => open.Adjuster,
            Remedy.Move move => move.Adjuster,
            Remedy.MoveUnits units => units.Adjuster,
            _ => null,
        };
}
