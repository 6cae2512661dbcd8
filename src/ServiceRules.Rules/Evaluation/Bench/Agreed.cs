using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What feelers tried at one place with nothing turned between agree on. The same feeler with two results conflicts
/// until the last two tries of it agree; feelers that exclude one another conflict until those tried again are alone
/// in agreement.
/// </summary>
internal sealed record Agreed
{
    // Every choice of so many is looked at: a thousand at most.
    private const int MostLookedThrough = 10;

    /// <summary>The gaps that all allow; none when they conflict.</summary>
    public required LengthInterval? Interval { get; init; }

    /// <summary>The gaps that the tries without doubt allow; none when there are none, or when they conflict.</summary>
    public required LengthInterval? SureInterval { get; init; }

    /// <summary>
    /// Where they conflict: what every choice of tries allows that can be true together and to which none can be added.
    /// Empty where they agree, and where too many feelers conflict to look through.
    /// </summary>
    public ImmutableArray<Knowledge> Contested { get; init; } = [];

    /// <summary>The gravest doubt about any try used.</summary>
    public required FindingReason Doubt { get; init; }

    /// <summary>Every feeler was tried at least twice in a row with one result.</summary>
    public required bool IsRepeated { get; init; }

    /// <summary>Brings together tries in their order.</summary>
    public static Agreed Of(ImmutableArray<FeelerConstraint> tries)
    {
        var sure = Meet([.. tries.Where(each => each.Doubt == FindingReason.None)]);
        var all = Meet(tries);
        // A sure feeler outweighs a doubtful one that contradicts it.
        var fallsBack = all is null && sure is not null;
        return new()
        {
            Interval = all ?? sure,
            SureInterval = sure,
            Doubt = fallsBack ? FindingReason.None : GravestOf(tries),
            Contested = (all ?? sure) is null ? Believable(tries) : [],
            IsRepeated = tries.GroupBy(each => each.Thickness).All(IsConfirmed),
        };
    }

    private static LengthInterval? Meet(ImmutableArray<FeelerConstraint> tries)
    {
        if (tries.IsEmpty)
        {
            return null;
        }

        var feelers = tries.GroupBy(each => each.Thickness).ToList();
        if (feelers.Exists(tried => tried.Count() > 1 && !IsConfirmed(tried)))
        {
            return null;
        }

        return Meet(feelers.Select(tried => tried.Last()))
            ?? Meet(feelers.Where(IsConfirmed).Select(tried => tried.Last()));
    }

    private static LengthInterval? Meet(IEnumerable<FeelerConstraint> constraints)
    {
        LengthInterval? met = null;
        foreach (var constraint in constraints)
        {
            if (met is null)
            {
                met = constraint.Interval;
            }
            else if (met.Meet(constraint.Interval) is IntervalMeeting.Overlap overlap)
            {
                met = overlap.Interval;
            }
            else
            {
                return null;
            }
        }

        return met;
    }

    private static ImmutableArray<Knowledge> Believable(ImmutableArray<FeelerConstraint> tries)
    {
        var distinct = tries.Distinct().ToImmutableArray();
        if (distinct.Length > MostLookedThrough)
        {
            return [];
        }

        var possible = Enumerable
            .Range(1, (1 << distinct.Length) - 1)
            .Select(choice => (Choice: choice, Allowed: TrueTogether(Chosen(distinct, choice))))
            .Where(each => each.Allowed is not null)
            .ToList();
        return
        [
            .. possible
                .Where(each =>
                    !possible.Exists(other =>
                        other.Choice != each.Choice && (other.Choice & each.Choice) == each.Choice
                    )
                )
                .Select(each => each.Allowed!),
        ];
    }

    private static List<FeelerConstraint> Chosen(ImmutableArray<FeelerConstraint> tries, int choice) =>
        [.. tries.Where((_, index) => (choice & (1 << index)) != 0)];

    /// <summary>What they allow together; none when they exclude one another, or one feeler passes and does not.</summary>
    private static LengthInterval? TrueTogether(List<FeelerConstraint> chosen) =>
        chosen.Select(each => (each.Thickness, each.Passes)).Distinct().Count()
        == chosen.Select(each => each.Thickness).Distinct().Count()
            ? Meet((IEnumerable<FeelerConstraint>)chosen)
            : null;

    private static bool IsConfirmed(IEnumerable<FeelerConstraint> tried)
    {
        var last = tried.TakeLast(2).ToList();
        return last.Count == 2 && last[0].Passes == last[1].Passes;
    }

    private static FindingReason GravestOf(ImmutableArray<FeelerConstraint> tries) =>
        tries.Any(each => each.Doubt == FindingReason.GaugeUnfit) ? FindingReason.GaugeUnfit
        : tries.Any(each => each.Doubt == FindingReason.GaugeCannotRead) ? FindingReason.GaugeCannotRead
        : tries.Any(each => each.Doubt != FindingReason.None) ? FindingReason.UncertaintyUnknown
        : FindingReason.None;
}
