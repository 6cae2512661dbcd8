using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>How deep a groomer reaches below the cut, told beside the check that relates the two. Never a verdict.</summary>
internal static class GroomerNote
{
    // Less than half of the shallowest school: a groomer that still stands where its setting starts.
    private const decimal Least = 0.05m;

    // A millimetre of diameter: what a worn blade is told by.
    private static readonly Length Worn = Length.FromMillimetres(1m);

    public static IEnumerable<string> Notices(UnitPlaces groomer, UnitPlaces height)
    {
        foreach (var place in groomer.Usable)
        {
            if (
                place.Knowledge is MeasuredValue set
                && StationPlaces
                    .At(height.Usable, place.Station, each => each.Station)
                    .FirstOrDefault()
                    ?.Knowledge
                    is MeasuredValue cut
                && cut.Value > Length.Zero
                && GroomerDepth.Of(cut.Value, set.Value) is var depth
                && GroomerDepth.Share(depth, cut.Value) is >= Least and var share
            )
            {
                var percent = Math.Round(share * 100m).ToString(CultureInfo.InvariantCulture);
                yield return $"{groomer.Said(place.Station, place.Blade)}: the groomer reaches {Wording.Of(depth, place.System)} "
                    + $"below the cut, {percent} % of the height; published practice does not agree: 20 % (TL1), at most 10 % (S29), "
                    + "1 to 1.5 mm below the effective height (S10); never into soil. "
                    + $"A tenth would be a groomer height of {At(cut.Value, 0.1m, place.System)}, a fifth {At(cut.Value, 0.2m, place.System)}; "
                    + $"blades that lose {Wording.Of(Worn, place.System)} of diameter reach {Wording.Of(depth - GroomerDepth.AfterWear(depth, Worn, Length.Zero), place.System)} less (derived)";
            }
        }
    }

    /// <summary>A groomer height is set no finer than a height of cut: 0.01 mm or 0.0005 in.</summary>
    private static string At(Length heightOfCut, decimal share, UnitSystem system)
    {
        var quantum = system is UnitSystem.Inch ? Length.FromInches(0.0005m) : Length.FromMillimetres(0.01m);
        var height = GroomerDepth.HeightFor(heightOfCut, share);
        return Wording.Of(quantum * Math.Round(height.Millimetres / quantum.Millimetres), system);
    }
}
