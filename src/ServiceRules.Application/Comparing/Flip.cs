using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Comparing;

/// <summary>One rule on one subject of a record that would come out otherwise.</summary>
public sealed record Flip
{
    /// <summary>Identity text of the rule.</summary>
    public required string Rule { get; init; }

    /// <summary>Its title.</summary>
    public required string Title { get; init; }

    /// <summary>The subject.</summary>
    public required Subject Subject { get; init; }

    /// <summary>What came of it by the old rules; null: not judged.</summary>
    public required Finding? Was { get; init; }

    /// <summary>What would come of it by the new rules; null: not judged.</summary>
    public required Finding? WouldBe { get; init; }

    /// <summary>What it comes from.</summary>
    public required ImmutableArray<FlipCause> Causes { get; init; }

    /// <summary>The kinds of unit that it is judged on: the sheet of the unit, or of all units.</summary>
    public required ImmutableArray<string> Sheets { get; init; }

    /// <summary>The gauges that its readings were taken with; empty where nothing was measured.</summary>
    public required ImmutableArray<string> Gauges { get; init; }

    /// <summary>
    /// Whether nobody at the bench would see a difference: what is in would no longer be asked, or what was not asked would
    /// be in.
    /// </summary>
    public bool IsQuiet => (IsSilent(Was) && IsMet(WouldBe)) || (IsMet(Was) && IsSilent(WouldBe));

    /// <summary>Whether two outcomes of a rule differ in anything that matters.</summary>
    public static bool Differs(Finding? was, Finding? wouldBe) =>
        IsSilent(was) || IsSilent(wouldBe)
            ? IsSilent(was) != IsSilent(wouldBe)
            : was!.Verdict != wouldBe!.Verdict
                || was.Effect != wouldBe.Effect
                || was.LetOut is null != wouldBe.LetOut is null;

    private static bool IsSilent(Finding? finding) => finding is null or { Verdict: Verdict.NotApplicable };

    private static bool IsMet(Finding? finding) => finding?.Verdict == Verdict.Met;
}
