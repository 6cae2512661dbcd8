using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// All that the program knows of one duty of safe work beside its words: what judges it, what takes the ground from it,
/// where in a job it is due and how near the danger is where it is not kept.
/// </summary>
public sealed record DutyEntry
{
    internal static readonly ImmutableArray<Verdict> NeverUnproven = [Verdict.Met, Verdict.NotMet];

    private static readonly ImmutableArray<Verdict> All = [Verdict.Met, Verdict.NotMet, Verdict.Unproven];

    internal DutyEntry(Func<DutyFrame, CheckOutcome> judge) => Judge = judge;

    /// <summary>The step before hands go in that it asks for; null: none.</summary>
    public StepBeforeHands? Step { get; internal init; }

    /// <summary>Duties whose own step is done by doing this one's.</summary>
    public ImmutableArray<EnergyDuty> Does { get; internal init; } = [];

    /// <summary>It is due when hands are out again: on an open job it is still to come, and nobody is in danger for want of it.</summary>
    public bool IsDueAfterHands { get; internal init; }

    /// <summary>How near hands are to live energy where it is not kept.</summary>
    public HandsDanger Danger { get; internal init; } = HandsDanger.None;

    /// <summary>The verdicts it can give where it applies, in the order met, not met, unproven.</summary>
    public ImmutableArray<Verdict> Verdicts { get; internal init; } = All;

    internal Func<DutyFrame, CheckOutcome> Judge { get; }

    internal Suppressors SuppressedBy { get; init; } = Suppressors.Exemption;
}
