using System.Globalization;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Twist of the two rollers on the plate: how far the front one is turned against the rear one over the width, from the
/// gaps under the four corners. A gap is never less than nothing, so that a corner which lets no feeler pass is known both
/// ways.
/// </summary>
internal static class TwistCheck
{
    private static readonly LengthInterval NoLessThanNothing = LengthInterval.AtLeast(Length.Zero);

    public static CheckOutcome Evaluate(Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        if (unit.Sheet.Of(MeasuredQuantity.FrontRollerOnPlate)?.Twist is not { } most)
        {
            return Told.NotApplicable("Roller twist: the limit sheet states no limit");
        }

        var front = UnitPlaces.Of(unit, MeasuredQuantity.FrontRollerOnPlate);
        var rear = UnitPlaces.Of(unit, MeasuredQuantity.RearRollerOnPlate);
        if (StandsOnNothing.Outcome(front, rear) is { } impossible)
        {
            return impossible;
        }

        var (first, second) = (Lines(front), Lines(rear));
        IEnumerable<PlaceJudgement> Judged(UnitPlaces ahead, UnitPlaces behind) =>
            Lines(ahead)
                .SelectMany(_ => Lines(behind), Asking)
                .Select(each => PlaceJudgement.Of(each, PrintedZone.Within(most), rule.Decision));

        var contested = ContestedBreach.Among([front, rear], believed => Judged(believed[0], believed[1]));
        var outcome = JudgedPlaces.Outcome(
            "roller twist",
            [.. Judged(front, rear), .. contested],
            [
                .. Obstacles(front, first, "front roller")
                    .Concat(Obstacles(rear, second, "rear roller"))
                    .OrderBy(obstacle => obstacle.Gravity),
            ],
            front.Usable.Concat(rear.Usable).SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => new Remedy.Act(rule.Advice),
                Verdict.Unproven => Again(outcome, front, rear),
                _ => null,
            },
            Notices =
                outcome.Verdict is Verdict.NotMet
                    ? [.. outcome.Notices, .. OfHeight(unit, outcome)]
                    : outcome.Notices,
        };
        return ContestedBreach.Told(
            outcome,
            contested,
            (MeasuredQuantity.FrontRollerOnPlate, front),
            (MeasuredQuantity.RearRollerOnPlate, rear)
        );
    }

    private static List<KnownLine> Lines(UnitPlaces places) => Lines(places, place => place);

    private static List<KnownLine> Lines(UnitPlaces places, Func<PlaceKnown, PlaceKnown> told) =>
        places.Lines(place => NoLess(told(place))).ToList();

    private static PlaceKnown NoLess(PlaceKnown place) =>
        place.Knowledge is LengthInterval interval
        && interval.Meet(NoLessThanNothing) is IntervalMeeting.Overlap overlap
            ? place with
            {
                Knowledge = overlap.Interval,
            }
            : place;

    private static Asked Asking(KnownLine front, KnownLine rear)
    {
        var twist = RollerTwist.Of(front.Fit, rear.Fit);
        var rises = !EitherWay.IsBelow(twist);
        var (high, other) = (
            "front left and rear right stand high by",
            "front right and rear left stand high by"
        );
        return new(
            MeasuredQuantity.FrontRollerOnPlate,
            "across",
            rises ? high : other,
            rises ? twist : Negated.Of(twist),
            front.System,
            Doubts.Gravest(front.Places.Concat(rear.Places)),
            null
        )
        {
            Grown = GrownOf(front, rear, rises),
            SaidOtherWay = rises ? other : high,
            IsReadInBoth = front.IsReadInBoth || rear.IsReadInBoth || front.System != rear.System,
        };
    }

    private static GrownDoubt? GrownOf(KnownLine front, KnownLine rear, bool rises)
    {
        var (ahead, behind) = (front.AsReadAndEven ?? front, rear.AsReadAndEven ?? rear);
        var byGauges = RollerTwist.Of(ahead.Fit, behind.Fit);
        return
            (
                GrownDoubt.OfLine(front, each => each.Fit.Tilt)
                ?? GrownDoubt.OfLine(rear, each => each.Fit.Tilt)
            )
                is { } grown
            && (rises ? byGauges : Negated.Of(byGauges)) is MeasuredValue measured
            ? grown with
            {
                ByGauge = measured,
            }
            : null;
    }

    private static IEnumerable<Obstacle> Obstacles(UnitPlaces places, List<KnownLine> lines, string roller) =>
        places.ObstaclesToALine(lines).Select(obstacle => obstacle with { Subject = roller });

    /// <summary>The roller that the statement speaks of, and of it the corners that are lacking.</summary>
    private static Remedy Again(CheckOutcome outcome, UnitPlaces front, UnitPlaces rear)
    {
        if (
            outcome.Reason is FindingReason.IntervalCrossesLimit
            && Feelers(outcome, front, rear) is { } feelers
        )
        {
            return feelers;
        }

        var (quantity, places) = Lacking(front, rear);
        if (outcome.Reason is not (FindingReason.TooFewStations or FindingReason.NotMeasured))
        {
            return ReadAgain.For(outcome, quantity, places);
        }

        List<string> corners = [.. Corners(front, "front"), .. Corners(rear, "rear")];
        var missing = corners.Count == 0 ? string.Empty : $"; not read: {Wording.Listed(corners)}";
        return new Remedy.ReadAgain(
            quantity,
            [.. Ends.Where(end => !IsRead(places, end))],
            $"twist shows only from all four corners{missing}"
        );
    }

    /// <summary>
    /// Which feelers settle it, at which corner of which roller; where no tolerance of them tells that, which corner is high by more
    /// than was tried. A corner that stands lacks none: nothing passes under it.
    /// </summary>
    private static Remedy.ReadAgain? Feelers(CheckOutcome outcome, UnitPlaces front, UnitPlaces rear)
    {
        if (
            outcome.Comparisons is [{ UpperLimit: { } most }, ..]
            && new TwistFeelers(
                front,
                rear,
                most,
                (ahead, behind) =>
                    (Lines(front, ahead), Lines(rear, behind)) is ([var first, ..], [var second, ..])
                        ? RollerTwist.Of(first.Fit, second.Fit)
                        : null
            ).Settling()
                is { } settling
        )
        {
            return settling;
        }

        return new[]
        {
            (Quantity: MeasuredQuantity.FrontRollerOnPlate, Places: front),
            (Quantity: MeasuredQuantity.RearRollerOnPlate, Places: rear),
        }
            .Select(roller =>
                (
                    roller.Quantity,
                    Open: roller
                        .Places.Usable.Where(place =>
                            FeelersLacking.Of([place], bound: Length.Zero) is not null
                        )
                        .ToList()
                )
            )
            .Where(roller => roller.Open.Count > 0)
            .Select(roller => new Remedy.ReadAgain(
                roller.Quantity,
                [.. roller.Open.Select(place => UnitPlaces.Name(place.Station, place.Blade))],
                FeelersLacking.Thicker
            ))
            .FirstOrDefault();
    }

    private static (MeasuredQuantity Quantity, UnitPlaces Places) Lacking(UnitPlaces front, UnitPlaces rear)
    {
        var ahead = Gravity(front);
        return Gravity(rear) < ahead
            ? (MeasuredQuantity.RearRollerOnPlate, rear)
            : (MeasuredQuantity.FrontRollerOnPlate, front);
    }

    private static int Gravity(UnitPlaces places) =>
        places
            .ObstaclesToALine([.. places.Lines()])
            .Select(obstacle => obstacle.Gravity)
            .DefaultIfEmpty(int.MaxValue)
            .Min();

    private static IEnumerable<string> Corners(UnitPlaces places, string roller) =>
        Ends.Where(end => !IsRead(places, end)).Select(end => $"{roller} {end}");

    private static readonly string[] Ends = ["left", "right"];

    private static bool IsRead(UnitPlaces places, string end) =>
        places.Usable.Any(place =>
            place.Station is { } at && (end == "left" ? at * 2 < places.Width : at * 2 > places.Width)
        );

    /// <summary>What it means where the height is known: a share of the height of cut.</summary>
    private static IEnumerable<string> OfHeight(UnitFrame unit, CheckOutcome outcome)
    {
        var height = UnitPlaces
            .Of(unit, MeasuredQuantity.HeightOfCut)
            .Lines()
            .Select(line => line.Fit.Offset.Middle)
            .FirstOrDefault();
        var worst = outcome.Comparisons[0];
        if (height is { } cut && cut > Length.Zero && (worst.Value ?? worst.KnownLower) is { } twist)
        {
            var share = Math.Round(100 * twist.Abs.Millimetres / cut.Millimetres);
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"the twist is {(worst.Value is null ? "at least " : "")}{share} % of the height of cut"
            );
        }
    }
}
