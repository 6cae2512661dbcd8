using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Carries the last land reading on by the diameter lost since, so that a land is asked for only when it matters.</summary>
internal static class ReliefReckoning
{
    public static ReliefOutlook? Of(PartLife reel, SizeOutlook? diameter, SizeOutlook? land)
    {
        var sheet = reel.Last.Sheet;
        if (
            diameter is null
            || land is not { Limit: { } limit, Last: var read }
            || sheet.Wear?.ReliefAngle is not { } relief
            || reel.Visits.Any(visit => IsRelieved(visit.Unit) && visit.Unit.Day > read.Day)
        )
        {
            return null;
        }

        // What was lost between an earlier diameter and the land is in the land already: it counts from the diameter of
        // the same job, else from the next; without one nothing is known to be lost since.
        var then =
            diameter.Points.FirstOrDefault(point => point.Record == read.Record)
            ?? diameter.Points.FirstOrDefault(point => point.Day > read.Day)
            ?? diameter.Last;
        var loss = Length.Max(Length.Zero, then.Value - diameter.Last.Value);
        var now = read.Value + LandGrowth.Of(loss, relief);
        return new(
            read.Day,
            read.Value,
            loss,
            now,
            limit,
            LandGrowth.DiameterToLimit(now, limit, relief),
            relief,
            read.System
        );
    }

    private static bool IsRelieved(UnitVisit visit) =>
        visit.Grindings.Any(grinding => grinding.Kind == GrindingKind.ReelRelief);
}
