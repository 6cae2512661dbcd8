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

        IEnumerable<PlaceJudgement> Judged(IEnumerable<KnownLine> along) =>
            along.Select(line =>
                PlaceJudgement.Of(
                    Difference("right end", "left end", line, each => ReelForm.Of(each.Fit).Taper),
                    PrintedZone.Within(most),
                    rule.Decision
                )
            );

        var contested = ContestedBreach.Among([places], believed => Judged(believed[0].Lines()));
        var outcome = JudgedPlaces.Outcome(
            "reel taper",
            [.. Judged(lines), .. contested],
            places.ObstaclesToALine(lines),
            lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Remedy = Remedy(outcome, rule, places, ["left", "right"]),
            Notices = [.. outcome.Notices, .. lines.SelectMany(TaperNotices)],
        };
        return ContestedBreach.Told(outcome, contested, (MeasuredQuantity.ReelDiameter, places));
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

        IEnumerable<PlaceJudgement> Judged(IEnumerable<KnownLine> along) =>
            along.Where(line => line.Fit.Bow is not null).SelectMany(line => OfBow(line, stated, room, rule));

        var contested = ContestedBreach.Among([places], believed => Judged(believed[0].Lines()));
        var bowed = lines.FindAll(line => line.Fit.Bow is not null);
        var outcome = JudgedPlaces.Outcome(
            "reel barrel",
            [.. Judged(lines), .. contested],
            places.Obstacles.IsEmpty && bowed.Count == 0
                ? [new(FindingReason.TooFewStations, null, "three stations", [.. Evidence(lines)])]
                : places.Obstacles,
            Evidence(bowed)
        );
        outcome = outcome with { Remedy = Remedy(outcome, rule, places, ["left", "middle", "right"]) };
        return ContestedBreach.Told(outcome, contested, (MeasuredQuantity.ReelDiameter, places));
    }

    private static IEnumerable<PlaceJudgement> OfBow(
        KnownLine line,
        DualPrint? stated,
        PrintedZone? room,
        Rule rule
    )
    {
        if (stated is not null)
        {
            yield return PlaceJudgement.Of(
                Difference("middle", "ends", line, each => ReelForm.Of(each.Fit).Barrel!),
                PrintedZone.Within(stated),
                rule.Decision
            );
        }

        if (room is not null)
        {
            yield return PlaceJudgement.Of(GapError(line), room, rule.Decision);
        }
    }

    private static IEnumerable<string> Evidence(IEnumerable<KnownLine> lines) =>
        lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence);

    /// <summary>A difference of diameters, told from the larger one.</summary>
    private static Asked Difference(
        string one,
        string other,
        KnownLine line,
        Func<KnownLine, Knowledge> difference
    ) => Asking($"{one} larger than {other} by", $"{other} larger than {one} by", line, difference);

    private static Asked GapError(KnownLine line) =>
        Asking(
            "gap narrower in the middle than at the ends by",
            "gap wider in the middle than at the ends by",
            line,
            each => ReelForm.Of(each.Fit).GapError!
        );

    private static Asked Asking(
        string ifMore,
        string ifLess,
        KnownLine line,
        Func<KnownLine, Knowledge> value
    )
    {
        var isMore = !(value(line).Middle < Length.Zero);
        Knowledge Signed(KnownLine each) => isMore ? value(each) : Negated.Of(value(each));
        return new(
            MeasuredQuantity.ReelDiameter,
            line.Blade is { } blade ? $"across, blade {blade}" : "across",
            isMore ? ifMore : ifLess,
            Signed(line),
            line.System,
            line.Doubt,
            null
        )
        {
            Grown = GrownDoubt.OfLine(line, Signed),
            IsReadInBoth = line.IsReadInBoth,
        };
    }

    private static IEnumerable<string> TaperNotices(KnownLine line)
    {
        if (ReelForm.Of(line.Fit) is not { Taper: MeasuredValue taper } form || !LineShape.IsShown(taper))
        {
            yield break;
        }

        var angle = ReelForm.ConeHalfAngle(taper.Value, line.Fit.Width);
        var tilt = form.HeightTilt.Middle!.Value.Abs;
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
