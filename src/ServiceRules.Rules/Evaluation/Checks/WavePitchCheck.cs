using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Trade;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A wave that was measured on the turf, and which part of the unit prints one of that pitch.</summary>
internal static class WavePitchCheck
{
    public static CheckOutcome Evaluate(Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        if (frame.Record.Machine.Tested?.WavePitch is not { } pitch)
        {
            return Told.NotApplicable("Wave on the turf: none was measured");
        }

        var clip = MowingKnown.Of(frame, unit).Clip(unit.Sheet.Blades);
        var diagnosis = WaveDiagnosis.Of(
            pitch.Value,
            clip,
            unit.Sheet.FrontRollerDiameter?.In(pitch.System),
            unit.Sheet.RearRollerDiameter?.In(pitch.System)
        );
        ImmutableArray<string> evidence = [Pointers.Tested];
        var wave = $"Wave on the turf: {pitch} from tip to tip{Band(diagnosis.Band)}; ";
        if (diagnosis.Candidates.IsEmpty)
        {
            return Told.Unproven(
                FindingReason.NoSettingInForce,
                wave
                    + "neither the speeds nor the roller diameters are stated, so no part can be told from another",
                evidence,
                new Remedy.Act("measure the speeds, and have the roller diameters entered in the limit sheet")
            );
        }

        ImmutableArray<WaveCandidate> likely =
        [
            .. diagnosis.Candidates.Where(candidate => candidate.IsLikely),
        ];
        return Told.NotMet(
            FindingReason.Faulty,
            wave
                + (
                    likely.IsEmpty
                        ? Nearest(diagnosis.Candidates[0], pitch.System)
                        : Likely(likely, pitch.System)
                ),
            evidence,
            new Remedy.Act(
                likely.IsEmpty ? rule.Advice : ToLookFor(likely, AgainstHeight(clip, unit, pitch.System))
            )
        );
    }

    private static string Likely(ImmutableArray<WaveCandidate> likely, UnitSystem system) =>
        "it fits "
        + Wording.Listed([
            .. likely.Select(candidate => $"{Named(candidate.Cause)}, {Figure(candidate, system)}"),
        ])
        + " (derived)";

    private static string Nearest(WaveCandidate nearest, UnitSystem system) =>
        $"no part that is known here fits; the nearest is {Named(nearest.Cause)}, {Figure(nearest, system)} (derived)";

    private static string Figure(WaveCandidate candidate, UnitSystem system)
    {
        var off = Math.Round(Math.Abs(candidate.Off) * 100m).ToString(CultureInfo.InvariantCulture);
        return $"{ClipWords.Spacing(candidate.Pitch, system)} ({off} % off)";
    }

    private static string Named(WaveCause cause) =>
        cause switch
        {
            WaveCause.Blade => "every blade",
            WaveCause.Reel => "once in each turn of the reel",
            WaveCause.FrontRoller => "once in each turn of the front roller",
            WaveCause.RearRoller => "once in each turn of the rear roller",
            _ => throw new ArgumentOutOfRangeException(nameof(cause), cause, "not a cause of waves"),
        };

    private static string Band(WaveBand band) =>
        band switch
        {
            WaveBand.Marcelling =>
                ", in the published band up to 2 in that is put down to the clip (MK7, MK8)",
            WaveBand.Washboarding =>
                ", in the published band of 6 to 8 in that is put down to a roller out of round or a rocking unit (MK7, MK8)",
            _ => string.Empty,
        };

    private static string ToLookFor(ImmutableArray<WaveCandidate> likely, string clip) =>
        string.Join(
            "; ",
            likely.Select(candidate => LookFor(candidate.Cause, clip)).Distinct(StringComparer.Ordinal)
        );

    private static string LookFor(WaveCause cause, string clip) =>
        cause switch
        {
            WaveCause.Blade =>
                $"slow down or turn the reel faster, which draws the waves closer together: {clip}",
            WaveCause.Reel => "look for one high blade and for a reel that runs out",
            _ => "look for a roller out of round, play in its bearings, and a unit that rocks",
        };

    /// <summary>
    /// The clip beside the least height that was read: only one that is wider than the height is known to be too wide.
    /// </summary>
    private static string AgainstHeight(Clip? clip, UnitFrame unit, UnitSystem system)
    {
        var heights = UnitPlaces
            .Of(unit, MeasuredQuantity.HeightOfCut)
            .Usable.Select(place => place.Knowledge?.Middle)
            .OfType<Length>()
            .ToList();
        if (clip is null || heights.Count == 0)
        {
            return "they stand one clip apart";
        }

        var beside = $"({ClipWords.Spacing(clip.Spacing, system)} and {Wording.Of(heights.Min(), system)})";
        return clip.Spacing > heights.Min()
            ? $"they stand one clip apart, and the clip is wider than the height of cut {beside}"
            : $"they stand one clip apart, though the clip is within the height of cut {beside}; what raises them the record does not show";
    }
}
