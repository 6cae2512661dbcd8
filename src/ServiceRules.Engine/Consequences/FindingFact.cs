using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Inference;
using ServiceRules.Engine.Judging;

namespace ServiceRules.Engine.Consequences;

/// <summary>A finding as the network sees it; its identity is the finding's own.</summary>
internal sealed record FindingFact : Fact
{
    public FindingFact(DraftFinding draft)
    {
        Key = draft.Key;
        Rule = draft.Finding.Rule;
        Subject = draft.Finding.Subject.Key;
        OnUnit = draft.Unit is not null;
        Verdict = draft.Finding.Verdict;
        Effect = draft.Finding.Effect;
        EffectIfUnproven = draft.IfUnproven.Effect;
        Severity = draft.Finding.Severity;
        JudgedAsLeft = CheckReach.JudgedAsLeft(draft.Rule.Check);
        ShowsStale = draft.ShowsStale();
        WouldUpset = draft.WouldUpset();
        Sets = draft.Sets();
    }

    public string Key { get; }

    public string Rule { get; }

    public string Subject { get; }

    public bool OnUnit { get; }

    public Verdict Verdict { get; }

    public Effect Effect { get; }

    public Effect EffectIfUnproven { get; }

    public Severity Severity { get; }

    public ImmutableArray<MeasuredQuantity> JudgedAsLeft { get; }

    public ImmutableArray<MeasuredQuantity> ShowsStale { get; }

    public ImmutableArray<MeasuredQuantity> WouldUpset { get; }

    public MeasuredQuantity? Sets { get; }

    public bool Keeps => Effect is Effect.Hold or Effect.Stop;

    public bool Equals(FindingFact? other) =>
        other is not null && string.Equals(Key, other.Key, StringComparison.Ordinal);

    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Key);

    public override string ToString() => Key;
}
