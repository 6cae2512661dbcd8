using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>The clip as it is said on the shop floor.</summary>
internal static class ClipWords
{
    /// <summary>The clip, before anything is said of it.</summary>
    public static string Subject(Clip clip, UnitSystem system) =>
        $"clip at {clip.GroundSpeed} and {clip.ReelSpeed}, every {Spacing(clip.Spacing, system)}";

    /// <summary>How the clip, where it is in or out, stands to the height that decides.</summary>
    public static string Of(Clip clip, decimal ratio, PlaceJudgement lowest, Verdict verdict)
    {
        var blades = clip.Blades.ToString(CultureInfo.InvariantCulture);
        var height = ratio == 1m ? "the height" : $"{Number(ratio)} times the height";
        var clips =
            $"Clip: at {clip.GroundSpeed} and {clip.ReelSpeed} {blades} blades clip every {Spacing(clip.Spacing, lowest.System)} ({clip.CutsPerMetre.ToString("0", CultureInfo.InvariantCulture)} cuts in a metre)";
        return verdict is Verdict.NotMet
            ? $"{clips}, more than {height}, {lowest.Said}: ribbing is likely"
            : $"{clips}, no more than {height}, {lowest.Said}: in";
    }

    /// <summary>
    /// What would keep the clip at the heights that were read, each counted as low as the rule asks it to be proven: what is told here
    /// is itself met. None where nothing sensible would.
    /// </summary>
    public static IEnumerable<string> Ways(
        Clip clip,
        decimal ratio,
        PlaceJudgement lowest,
        IEnumerable<PlaceJudgement> judged
    )
    {
        if (lowest.Compared.Value is not { } read || read <= Length.Zero)
        {
            yield break;
        }

        List<string> ways = [];
        var height = judged.Select(Sure).Aggregate(Sure(lowest), Length.Min);
        if (height > Length.Zero)
        {
            Add(clip, ratio, height, ways);
        }

        if (ways.Count > 0)
        {
            yield return $"{string.Join(", or ", ways)} (derived)";
        }

        yield return $"ribs may stand up to {Spacing(clip.RidgeAt(read), lowest.System)} above the cut "
            + "(derived, an upper bound: use it to compare settings)";
    }

    /// <summary>The height less its guard; where the rule has none of its own, less its uncertainty.</summary>
    private static Length Sure(PlaceJudgement judged) =>
        judged.Compared is { } each
            ? (each.Value ?? each.KnownLower ?? Length.Zero)
                - (each.AcceptLower - each.LowerLimit ?? each.Uncertainty ?? Length.Zero)
            : Length.Zero;

    private static void Add(Clip clip, decimal ratio, Length height, List<string> ways)
    {
        if (
            Clip.HighestSpeed(ratio, height, clip.ReelSpeed, clip.Blades, clip.GroundSpeed.Unit) is
            { } fastest
        )
        {
            ways.Add($"{fastest} is the most that keeps the clip");
        }

        if (Clip.LowestReelSpeed(ratio, height, clip.GroundSpeed, clip.Blades) is { } slowest)
        {
            ways.Add(ways.Count > 0 ? $"{slowest} the least" : $"{slowest} is the least that keeps the clip");
        }

        if (Clip.FewestBlades(ratio, height, clip.GroundSpeed, clip.ReelSpeed) is { } blades)
        {
            var reel = string.Create(CultureInfo.InvariantCulture, $"a reel of {blades} blades");
            ways.Add(ways.Count > 0 ? reel : $"{reel} keeps the clip");
        }
    }

    /// <summary>A spacing, as fine as anyone could measure it: 0.01 mm or 0.001 in.</summary>
    public static string Spacing(Length spacing, UnitSystem system) =>
        system is UnitSystem.Inch
            ? spacing.ToString(LengthUnit.Inch, 3)
            : spacing.ToString(LengthUnit.Millimetre, 2);

    private static string Number(decimal number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
