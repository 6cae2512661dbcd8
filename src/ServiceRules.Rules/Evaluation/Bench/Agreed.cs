using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What feelers tried at one place with nothing turned between agree on. Feelers that exclude one another, or one with two
/// results, conflict until something is turned, however often they are tried again; where the last tries came out alike twice
/// running, those show a breach all the same.
/// </summary>
internal sealed record Agreed
{
    // Every choice of so many is looked at: a thousand at most.
    private const int MostLookedThrough = 10;

    /// <summary>
    /// The gaps that all allow; where they conflict, what those tell that came out alike twice running, else none.
    /// </summary>
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

    /// <summary>The places in the order of the tries of the last two that exclude one another; none where all can be true together.</summary>
    public (int Earlier, int Later)? Contradicting { get; init; }

    /// <summary>Brings together tries in their order.</summary>
    public static Agreed Of(ImmutableArray<FeelerConstraint> tries)
    {
        var all = TrueTogether(tries);
        // A sure feeler outweighs a doubtful one that contradicts it.
        var sure = TrueTogether([.. tries.Where(each => each.Doubt == FindingReason.None)]);
        var shown = all ?? sure ?? LastTwice(tries);
        return new()
        {
            Interval = shown,
            SureInterval = sure,
            Doubt = all is null && sure is not null ? FindingReason.None : GravestOf(tries),
            Contested = shown is null ? Believable(tries) : [],
            IsRepeated = tries.GroupBy(each => each.Thickness).All(IsConfirmed),
            Contradicting = (all ?? sure) is null ? Excluding(tries) : null,
        };
    }

    /// <summary>What tries that contradict one another tell where they came out alike twice running: a breach by itself, and nothing in.</summary>
    private static LengthInterval? LastTwice(ImmutableArray<FeelerConstraint> tries)
    {
        var feelers = tries.GroupBy(each => each.Thickness).ToList();
        return feelers.Exists(tried => tried.Count() > 1 && !IsConfirmed(tried))
            ? null
            : Meet(feelers.Select(tried => tried.Last()))
                ?? Meet(feelers.Where(IsConfirmed).Select(tried => tried.Last()));
    }

    private static (int Earlier, int Later)? Excluding(ImmutableArray<FeelerConstraint> tries)
    {
        var pairs = (
            from later in Enumerable.Range(0, tries.Length)
            from earlier in Enumerable.Range(0, later)
            where TrueTogether([tries[earlier], tries[later]]) is null
            orderby tries[earlier].Thickness
                == tries[later].Thickness descending, later descending, earlier descending
            select (earlier, later)
        ).ToList();
        return pairs.Count == 0 ? null : pairs[0];
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
    private static LengthInterval? TrueTogether(IReadOnlyCollection<FeelerConstraint> chosen) =>
        chosen.Select(each => (each.Thickness, each.Passes)).Distinct().Count()
        == chosen.Select(each => each.Thickness).Distinct().Count()
            ? Meet(chosen)
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
