using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>How deep a groomer reaches below the cut, told beside the check that relates the two. Never a verdict.</summary>
internal static class GroomerNote
{
    // Less than half of the shallowest school: a groomer that still stands where its setting starts.
    private const decimal Least = 0.05m;

    public static IEnumerable<string> Notices(UnitPlaces groomer, UnitPlaces height)
    {
        foreach (var place in groomer.Usable)
        {
            if (
                place.Knowledge is MeasuredValue set
                && height.Usable.FirstOrDefault(other => other.Station == place.Station)?.Knowledge
                    is MeasuredValue cut
                && cut.Value > Length.Zero
                && GroomerDepth.Of(cut.Value, set.Value) is var depth
                && GroomerDepth.Share(depth, cut.Value) is >= Least and var share
            )
            {
                var percent = Math.Round(share * 100m).ToString(CultureInfo.InvariantCulture);
                yield return $"{groomer.Said(place.Station, place.Blade)}: the groomer reaches {Wording.Of(depth, place.System)} "
                    + $"below the cut, {percent} % of the height; published practice does not agree: 20 % (TL1), at most 10 % (S29), "
                    + "1 to 1.5 mm below the effective height (S10); never into soil";
            }
        }
    }
}
