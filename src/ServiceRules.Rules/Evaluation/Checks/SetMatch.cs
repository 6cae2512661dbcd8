using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Which units of a machine to move so that they match: the fewest, then those farthest from the target, then
/// those that leave the least spread. The ones
/// that stay are the largest group that already lies together with the gauge's doubt to spare.
/// </summary>
internal static class SetMatch
{
    /// <summary>What to move; null when the values are not known well enough to say.</summary>
    /// <param name="middles">The units by name, with their values at mid-width and their target, if one is in force.</param>
    /// <param name="together">Within what they must lie, the doubt of a difference taken off.</param>
    /// <param name="system">The units of the reading.</param>
    public static Remedy.Act? For(
        IReadOnlyList<(string Unit, Length Middle, Length? Target)> middles,
        Length together,
        UnitSystem system
    )
    {
        if (middles.Count < 2 || together < Length.Zero)
        {
            return null;
        }

        var sorted = middles
            .OrderBy(each => each.Middle)
            .ThenBy(each => each.Unit, StringComparer.Ordinal)
            .ToList();
        var stay = Enumerable
            .Range(0, sorted.Count)
            .Select(from =>
                sorted.Skip(from).TakeWhile(each => each.Middle - sorted[from].Middle <= together).ToList()
            )
            .OrderByDescending(group => group.Count)
            .ThenBy(group => Settable(OffTarget(group[0].Middle, group[^1].Middle, sorted[0].Target)))
            .ThenBy(group => Settable(group[^1].Middle - group[0].Middle))
            .First();
        var aim = AimOf(stay[0].Middle, stay[^1].Middle, sorted[0].Target, together);
        var moves = sorted
            .Except(stay)
            .OrderBy(each => each.Unit, StringComparer.Ordinal)
            .Select(each =>
                $"{each.Unit} {(each.Middle > aim ? "down" : "up")} by {Wording.Of((aim - each.Middle).Abs, system)}"
            )
            .ToList();
        return moves.Count == 0
            ? null
            : new(
                $"move {Wording.Listed(moves)} at both ends, and leave {Wording.Listed([.. stay.Select(each => each.Unit).Order(StringComparer.Ordinal)])}; then read the moved ones again"
            );
    }

    /// <summary>
    /// Nobody sets a height to better than a ten-thousandth of a millimetre: below that two answers are equally good, and
    /// the rounding of a converted reading must not choose between them.
    /// </summary>
    private static Length Settable(Length distance) =>
        Length.FromMillimetres(Math.Round(distance.Millimetres, 4));

    private static Length OffTarget(Length least, Length most, Length? target) =>
        target is { } wanted ? (((least + most) * 0.5m) - wanted).Abs : Length.Zero;

    /// <summary>The target, as near as those that stay allow; without one the middle of those that stay.</summary>
    private static Length AimOf(Length least, Length most, Length? target, Length together)
    {
        var (from, to) = (most - together, least + together);
        return target is { } wanted ? Length.Max(from, Length.Min(to, wanted)) : (least + most) * 0.5m;
    }
}
