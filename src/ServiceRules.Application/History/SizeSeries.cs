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

    /// <summary>Readings left out because their gauge proves nothing.</summary>
    public required int Disbelieved { get; init; }

    /// <summary>Hours at which it was ground last and the day; null: not in these records.</summary>
    public required UnitVisit? LastGround { get; init; }

    public static SizeSeries Of(PartLife life, MeasuredQuantity quantity)
    {
        var points = ImmutableArray.CreateBuilder<SizePoint>();
        var groundOff = ImmutableArray.CreateBuilder<Length>();
        UnitVisit? before = null;
        UnitVisit? lastGround = null;
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
            if (found && IsGround(visit, quantity))
            {
                stretch++;
                lastGround = visit;
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
            Disbelieved = life.Visits.Sum(one => one.Left ? one.Unit.Disbelieved : 0),
            LastGround = lastGround,
        };
    }

    private static bool IsJoined(UnitVisit before, UnitVisit visit) =>
        visit.Hours is not { } hours
        || before.Hours is not { } earlier
        || (before.Machine.Id == visit.Machine.Id && earlier <= hours);

    private static bool IsGround(UnitVisit visit, MeasuredQuantity quantity) =>
        visit.Grindings.Any(grinding =>
            grinding.Kind != GrindingKind.Lapping && grinding.States == SizeOf(quantity)
        );

    /// <summary>Relief and spin both work on the reel that a land belongs to.</summary>
    private static MeasuredQuantity SizeOf(MeasuredQuantity quantity) =>
        quantity == MeasuredQuantity.LandWidth ? MeasuredQuantity.ReelDiameter : quantity;

    private static IEnumerable<Length> TakenOff(UnitVisit visit, MeasuredQuantity quantity) =>
        visit
            .Grindings.Where(grinding => grinding.States == quantity)
            .Select(grinding => grinding.Before?.Value - grinding.After?.Value)
            .OfType<Length>()
            .Where(loss => loss > Length.Zero);
}
