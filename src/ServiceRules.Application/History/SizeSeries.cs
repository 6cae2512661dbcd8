using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>The readings of one size of a part over its life, and what each grind took off.</summary>
internal sealed record SizeSeries
{
    public required ImmutableArray<SizePoint> Points { get; init; }

    /// <summary>What grinds that state both sizes took off.</summary>
    public required ImmutableArray<Length> GroundOff { get; init; }

    /// <summary>The day from which hours are comparable, where an earlier meter or machine was another; else null.</summary>
    public required DateOnly? JoinedFrom { get; init; }

    public static SizeSeries Of(PartLife life, MeasuredQuantity quantity)
    {
        var points = ImmutableArray.CreateBuilder<SizePoint>();
        var groundOff = ImmutableArray.CreateBuilder<Length>();
        UnitVisit? before = null;
        DateOnly? joinedFrom = null;
        var stretch = 0;
        foreach (var (visit, found, left) in life.Visits.Select(one => (one.Unit, one.Found, one.Left)))
        {
            if (before is not null && !IsJoined(before, visit))
            {
                // Nobody knows how long it ran in between.
                joinedFrom = visit.Day;
                points.Clear();
                stretch = 0;
            }

            before = visit.Hours is null ? before : visit;
            if (found && visit.Ground(SizeOf(quantity)).Any())
            {
                stretch++;
                groundOff.AddRange(TakenOff(visit, quantity));
            }

            if (left && visit.Mean(quantity, asFound: false) is { } mean)
            {
                points.Add(new(visit.Record, visit.Day, visit.Hours, mean.Value, mean.System, stretch));
            }
        }

        return new()
        {
            Points = points.ToImmutable(),
            GroundOff = groundOff.ToImmutable(),
            JoinedFrom = joinedFrom,
        };
    }

    private static bool IsJoined(UnitVisit before, UnitVisit visit) =>
        visit.Hours is not { } hours
        || before.Hours is not { } earlier
        || (before.Machine.Id == visit.Machine.Id && earlier <= hours);

    /// <summary>Relief and spin both work on the reel that a land belongs to.</summary>
    private static MeasuredQuantity SizeOf(MeasuredQuantity quantity) =>
        quantity == MeasuredQuantity.LandWidth ? MeasuredQuantity.ReelDiameter : quantity;

    private static IEnumerable<Length> TakenOff(UnitVisit visit, MeasuredQuantity quantity) =>
        visit
            .Ground(quantity)
            .Select(grinding => grinding.Before?.Value - grinding.After?.Value)
            .OfType<Length>()
            .Where(loss => loss > Length.Zero);
}
