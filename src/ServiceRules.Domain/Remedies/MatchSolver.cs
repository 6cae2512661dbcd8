using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// Finds which units of a machine to move so that their middles lie together and the ends that meet make no step, every
/// moved unit level and in its own zone. Order of aims: fewest units moved; then fewest steps turned; then nearest to the
/// target, summed over both ends of all units; then least spread of the middles. Exact over all settings of the grids.
/// <para>
/// The middles of a set lie within some stretch of the given width. For each stretch that begins at a middle, the units
/// are settled from left to right, remembering for every setting of the last one the best way to it: only neighbours
/// restrict one another, and the aims add up.
/// </para>
/// </summary>
public static class MatchSolver
{
    /// <summary>The best plan; none when no settings of the grids keep all limits.</summary>
    public static MatchPlan? Solve(MatchTask task)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(task.Units.Length, MatchTask.MostUnits, nameof(task));
        ImmutableArray<ImmutableArray<MatchSetting>> options = [.. task.Units.Select(MatchOptions.Of)];
        if (task.Units.IsEmpty)
        {
            return null;
        }

        var middles = Middles(task, options);
        if (middles.Length == 0)
        {
            return Best(task, options, null)?.Plan(options);
        }

        MatchChain? best = null;
        foreach (var from in middles)
        {
            var found = Best(task, options, (from, task.Together is { } width ? from + width : middles[^1]));
            best = found is not null && (best is null || found.Cost.CompareTo(best.Cost) < 0) ? found : best;
        }

        return best is null ? null : Narrowest(task, options, middles, best).Plan(options);
    }

    /// <summary>Of all plans as good, the one whose middles lie closest together.</summary>
    private static MatchChain Narrowest(
        MatchTask task,
        ImmutableArray<ImmutableArray<MatchSetting>> options,
        ImmutableArray<Length> middles,
        MatchChain best
    )
    {
        var (narrowest, width) = (best, SpreadOf(task, options, best));
        foreach (var from in middles)
        {
            // Each find is narrower than the one before, until this beginning has no better.
            while (
                width > Length.Zero
                && Best(task, options, (from, from + width - MatchSetting.Settable)) is { } found
                && found.Cost.CompareTo(best.Cost) == 0
            )
            {
                (narrowest, width) = (found, SpreadOf(task, options, found));
            }
        }

        return narrowest;
    }

    private static Length SpreadOf(
        MatchTask task,
        ImmutableArray<ImmutableArray<MatchSetting>> options,
        MatchChain chain
    )
    {
        var middles = chain
            .Choices.Select((choice, unit) => (options[unit][choice].Middle, task.Units[unit].IsInSet))
            .Where(each => each.IsInSet)
            .Select(each => each.Middle)
            .ToList();
        return middles.Max() - middles.Min();
    }

    /// <summary>Where the middles of the set may stand, from the lowest; empty when there is no set.</summary>
    private static ImmutableArray<Length> Middles(
        MatchTask task,
        ImmutableArray<ImmutableArray<MatchSetting>> options
    ) =>
        [
            .. options
                .Where((_, unit) => task.Units[unit].IsInSet)
                .SelectMany(each => each.Select(setting => setting.Middle))
                .Distinct()
                .Order(),
        ];

    /// <summary>The best choice for every unit with the middles of the set within a stretch; none when there is none.</summary>
    private static MatchChain? Best(
        MatchTask task,
        ImmutableArray<ImmutableArray<MatchSetting>> options,
        (Length From, Length To)? stretch
    )
    {
        List<MatchChain?> ways = [MatchChain.Empty];
        for (var unit = 0; unit < options.Length; unit++)
        {
            var most = unit > 0 && unit <= task.Steps.Length ? task.Steps[unit - 1] : null;
            var next = new List<MatchChain?>(options[unit].Length);
            for (var choice = 0; choice < options[unit].Length; choice++)
            {
                var setting = options[unit][choice];
                var isOutside =
                    stretch is var (from, to)
                    && task.Units[unit].IsInSet
                    && (setting.Middle < from || setting.Middle > to);
                var before = isOutside
                    ? null
                    : Cheapest(ways, unit == 0 ? default : options[unit - 1], setting, most);
                next.Add(before?.Then(choice, MatchCost.Of(setting, task.Units[unit].Target)));
            }

            ways = next;
        }

        return ways.OfType<MatchChain>().MinBy(chain => chain.Cost);
    }

    /// <summary>The best way to a setting whose last unit makes no larger step to it than is allowed.</summary>
    private static MatchChain? Cheapest(
        List<MatchChain?> ways,
        ImmutableArray<MatchSetting> before,
        MatchSetting setting,
        Length? most
    )
    {
        return ways.Where(
                (way, choice) =>
                    way is not null
                    && !(most is { } step && (before[choice].RightEnd - setting.LeftEnd).Abs > step)
            )
            .MinBy(way => way!.Cost);
    }
}
