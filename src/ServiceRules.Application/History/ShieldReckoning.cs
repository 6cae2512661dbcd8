using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Follows a shield gap with the reel from one setting to the next.</summary>
internal static class ShieldReckoning
{
    /// <summary>The last gap read with nothing turned since an earlier one; the last that does not follow, if any.</summary>
    public static ShieldOutlook? Of(IEnumerable<UnitVisit> visits)
    {
        var read = Readings(visits).ToList();
        return read.LastOrDefault(one => !one.Follows) ?? read.LastOrDefault();
    }

    private static IEnumerable<ShieldOutlook> Readings(IEnumerable<UnitVisit> visits)
    {
        (SizeRead Gap, SizeRead Diameter, DateOnly Day)? basis = null;
        SizeRead? diameter = null;
        foreach (var visit in visits)
        {
            var isNewReel = visit.Fitted.Any(part => part.Part is PartKind.Reel or PartKind.Guard);
            var found = visit.Mean(MeasuredQuantity.ShieldGap, asFound: true);
            diameter = visit.Mean(MeasuredQuantity.ReelDiameter, asFound: true) ?? diameter;
            if (found is not null && diameter is not null)
            {
                if (basis is { } then && then.Diameter != diameter)
                {
                    yield return Held(then, found, diameter, visit.Day);
                }

                basis ??= (found, diameter, visit.Day);
            }

            // What was read of the reel that came out says nothing of the one that went in.
            var carried = visit.Fitted.Any(part => part.Part is PartKind.Reel) ? null : diameter;
            diameter = visit.Mean(MeasuredQuantity.ReelDiameter, asFound: false) ?? carried;
            var left = visit.Mean(MeasuredQuantity.ShieldGap, asFound: false);
            var isMoved = isNewReel || visit.Turned.Contains(AdjusterKind.Shield);
            if (isMoved)
            {
                basis = left is not null && diameter is not null ? (left, diameter, visit.Day) : null;
            }
            else if (left is not null && diameter is not null && basis is { } set && left != found)
            {
                yield return Held(set, left, diameter, visit.Day);
            }
        }
    }

    private static ShieldOutlook Held(
        (SizeRead Gap, SizeRead Diameter, DateOnly Day) then,
        SizeRead now,
        SizeRead diameter,
        DateOnly on
    ) =>
        new(
            then.Day,
            then.Gap.Value,
            on,
            now.Value,
            ShieldGapDrift.Expected(then.Gap.Value, then.Diameter.Value, diameter.Value),
            then.Gap.Doubt + now.Doubt + ((then.Diameter.Doubt + diameter.Doubt) * 0.5m),
            now.System
        );
}
