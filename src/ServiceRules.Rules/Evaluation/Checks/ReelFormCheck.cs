using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Taper of the reel against the limit of its sheet, and barrel against the sheet's limit and against the room between the
/// limits of the gap: half the barrel stands in the gap whatever the adjusters do.
/// </summary>
internal static class ReelFormCheck
{
    public static CheckOutcome Evaluate(Check.ReelForm check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var places = UnitPlaces.Of(unit, MeasuredQuantity.ReelDiameter);
        var lines = places.Lines().ToList();
        return check.Of is ReelFormOf.Taper
            ? Taper(rule, unit, places, lines)
            : Barrel(rule, unit, places, lines);
    }

    private static CheckOutcome Taper(Rule rule, UnitFrame unit, UnitPlaces places, List<KnownLine> lines)
    {
        if (unit.Sheet.Of(MeasuredQuantity.ReelDiameter)?.Taper is not { } most)
        {
            return Told.NotApplicable("Reel taper: the limit sheet states no limit");
        }

        var outcome = JudgedPlaces.Outcome(
            "reel taper",
            lines.ConvertAll(line =>
                PlaceJudgement.Of(
                    Difference("right end", "left end", ReelForm.Of(line.Fit).Taper, line),
                    PrintedZone.Within(most),
                    rule.Decision
                )
            ),
            places.ObstaclesToALine(lines),
            lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence)
        );
        return outcome with
        {
            Remedy = Remedy(outcome, rule, places, ["left", "right"]),
            Notices = [.. outcome.Notices, .. lines.SelectMany(TaperNotices)],
        };
    }

    private static CheckOutcome Barrel(Rule rule, UnitFrame unit, UnitPlaces places, List<KnownLine> lines)
    {
        var stated = unit.Sheet.Of(MeasuredQuantity.ReelDiameter)?.Barrel;
        var gap = unit.Sheet.Of(MeasuredQuantity.Clearance);
        var room = PrintedZone.RoomBetween(gap?.Lower, gap?.Upper);
        if (stated is null && room is null)
        {
            return Told.NotApplicable(
                "Reel barrel: the limit sheet states neither a limit nor limits of the clearance to hold it against"
            );
        }

        var judged = new List<PlaceJudgement>();
        var bowed = lines.FindAll(line => line.Fit.Bow is not null);
        foreach (var line in bowed)
        {
            var form = ReelForm.Of(line.Fit);
            if (stated is not null)
            {
                var asked = Difference("middle", "ends", form.Barrel!, line);
                judged.Add(PlaceJudgement.Of(asked, PrintedZone.Within(stated), rule.Decision));
            }

            if (room is not null)
            {
                var asked = GapError(form.GapError!, line);
                judged.Add(PlaceJudgement.Of(asked, room, rule.Decision));
            }
        }

        var outcome = JudgedPlaces.Outcome(
            "reel barrel",
            judged,
            places.Obstacles.IsEmpty && bowed.Count == 0
                ? [new(FindingReason.TooFewStations, null, "three stations", [.. Evidence(lines)])]
                : places.Obstacles,
            Evidence(bowed)
        );
        return outcome with { Remedy = Remedy(outcome, rule, places, ["left", "middle", "right"]) };
    }

    private static IEnumerable<string> Evidence(IEnumerable<KnownLine> lines) =>
        lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence);

    /// <summary>A difference of diameters, told from the larger one.</summary>
    private static Asked Difference(string one, string other, Knowledge difference, KnownLine line)
    {
        var rises = !(LimitRemedy.Best(difference) < Length.Zero);
        var told = rises ? difference : Negated.Of(difference);
        return Asking(rises ? $"{one} larger than {other} by" : $"{other} larger than {one} by", told, line);
    }

    private static Asked GapError(Knowledge error, KnownLine line)
    {
        var narrows = !(LimitRemedy.Best(error) < Length.Zero);
        return Asking(
            narrows
                ? "gap narrower in the middle than at the ends by"
                : "gap wider in the middle than at the ends by",
            narrows ? error : Negated.Of(error),
            line
        );
    }

    private static Asked Asking(string said, Knowledge knowledge, KnownLine line) =>
        new(
            MeasuredQuantity.ReelDiameter,
            line.Blade is { } blade ? $"across, blade {blade}" : "across",
            said,
            knowledge,
            line.System,
            line.Doubt,
            null
        );

    private static IEnumerable<string> TaperNotices(KnownLine line)
    {
        if (ReelForm.Of(line.Fit) is not { Taper: MeasuredValue taper } form || !LineShape.IsShown(taper))
        {
            yield break;
        }

        var angle = ReelForm.ConeHalfAngle(taper.Value, line.Fit.Width);
        var tilt = LimitRemedy.Best(form.HeightTilt)!.Value.Abs;
        yield return $"with the bedknife parallel to the blades the height of cut still tilts by about "
            + $"{Wording.Of(tilt, line.System)} over the width, half the taper (derived, no source); cone half angle {angle}";
    }

    private static Remedy? Remedy(
        CheckOutcome outcome,
        Rule rule,
        UnitPlaces places,
        IReadOnlyList<string> stations
    ) =>
        outcome.Verdict switch
        {
            Verdict.NotMet => new Remedy.Act(rule.Advice),
            Verdict.Unproven
                when outcome.Reason is FindingReason.TooFewStations or FindingReason.NotMeasured =>
                new Remedy.ReadAgain(
                    MeasuredQuantity.ReelDiameter,
                    [.. stations],
                    "the form of a reel shows only along its length"
                ),
            Verdict.Unproven => ReadAgain.For(outcome, MeasuredQuantity.ReelDiameter, places),
            _ => null,
        };
}
