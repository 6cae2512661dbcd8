using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>The first three aims of matching, which add up over units: compared one after the other.</summary>
internal readonly record struct MatchCost(int Moved, int Steps, long OffTarget) : IComparable<MatchCost>
{
    public static MatchCost Of(MatchSetting setting, Length target) =>
        new(setting.IsMoved ? 1 : 0, setting.Steps, setting.OffTarget(target));

    public MatchCost Plus(MatchCost other) =>
        new(Moved + other.Moved, Steps + other.Steps, OffTarget + other.OffTarget);

    public int CompareTo(MatchCost other) =>
        (Moved, Steps, OffTarget).CompareTo((other.Moved, other.Steps, other.OffTarget));
}
