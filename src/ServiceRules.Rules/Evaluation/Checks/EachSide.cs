using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A place and how far what is read there is off what it is held against.</summary>
/// <param name="At">Its station.</param>
/// <param name="By">How far it stands above, signed.</param>
/// <param name="Doubt">How far that may be off.</param>
internal sealed record PlaceOff(Length At, Length By, Length Doubt);

/// <summary>
/// How far to move each side of what is held against something else. The side that is out alone, where that brings every place in, so
/// that no good end is turned; else both, along the line through what is off. Counted at the adjusters, for the unit turns about the
/// side that stays; limits are drawn in by the doubt, so that the next reading can prove them.
/// </summary>
internal static class EachSide
{
    /// <summary>None where no setting of the two sides brings every place in.</summary>
    public static Remedy.Move? Moved(
        AdjusterKind kind,
        UnitFrame unit,
        ImmutableArray<PlaceOff> places,
        Comparison worst
    )
    {
        var left = unit.Sheet.Of(kind)?.LeftAt?.Value ?? Length.Zero;
        var right = unit.Sheet.Of(kind)?.RightAt?.Value ?? StationPlaces.Width(unit.Sheet);
        if (right <= left || places.Length < 2)
        {
            return null;
        }

        decimal Share(Length at) => (at - left).Millimetres / (right - left).Millimetres;
        bool AreIn(Length moveLeft, Length moveRight) =>
            places.All(place =>
                IsIn(
                    place.By + (moveLeft * (1m - Share(place.At))) + (moveRight * Share(place.At)),
                    place.Doubt,
                    worst
                )
            );

        var first = places.MaxBy(place => Beyond(place, worst))!;
        var share = Share(first.At);
        var (alone, line) = (
            share < 0.5m
                ? (first.By * (-1m / (1m - share)), Length.Zero)
                : (Length.Zero, first.By * (-1m / share)),
            Line(places)
        );
        var (moveLeft, moveRight) =
            AreIn(alone.Item1, alone.Item2) ? alone
            : line is { } along && AreIn(-along(left), -along(right)) ? (-along(left), -along(right))
            : (Length.Zero, Length.Zero);
        return moveLeft == Length.Zero && moveRight == Length.Zero
            ? null
            : new(
                kind,
                LimitRemedy.Held(moveLeft),
                LimitRemedy.Held(moveRight),
                [.. ReadAgain.After(unit, [Turned(kind, moveLeft, moveRight)])]
            );
    }

    private static bool IsIn(Length off, Length doubt, Comparison limits) =>
        (limits.LowerLimit is not { } lower || off >= -MachineMatch.Guarded(-lower, doubt))
        && (limits.UpperLimit is not { } upper || off <= MachineMatch.Guarded(upper, doubt));

    private static Length Beyond(PlaceOff place, Comparison limits) =>
        new[] { place.By - limits.UpperLimit, limits.LowerLimit - place.By }.Max() ?? Length.Zero;

    /// <summary>The line through what is off, by least squares; none where all stand at one place.</summary>
    private static Func<Length, Length>? Line(ImmutableArray<PlaceOff> places)
    {
        var middle = places.Average(place => place.At.Millimetres);
        var mean = places.Average(place => place.By.Millimetres);
        var spread = places.Sum(place => (place.At.Millimetres - middle) * (place.At.Millimetres - middle));
        if (spread == 0m)
        {
            return null;
        }

        var slope =
            places.Sum(place => (place.At.Millimetres - middle) * (place.By.Millimetres - mean)) / spread;
        return at => Length.FromMillimetres(mean + (slope * (at.Millimetres - middle)));
    }

    private static Adjustment Turned(AdjusterKind kind, Length left, Length right) =>
        new()
        {
            Adjuster = kind,
            Side =
                left == Length.Zero ? Side.Right
                : right == Length.Zero ? Side.Left
                : Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
}
