using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Application.History;

/// <summary>One unit of a history as JSON.</summary>
internal static class HistoryUnitShapes
{
    private const int Many = HistoryFormat.Many;

    private static readonly ObjectShape<HistoryDocument.Point> Point = Shape.Object<HistoryDocument.Point>(
        "history-point",
        "A size as a job left it.",
        o =>
        {
            var slotRecord = o.Required("record", Terms.Id<ServiceRecord>(), "the record", x => x.Record);
            var slotDate = o.Required("date", Terms.Day, "its day", x => x.Date);
            var slotHours = o.Optional("hours", Terms.Hours, "the hour meter", x => x.Hours);
            var slotValue = o.Required("value", Terms.ExactLength, "the size", x => x.Value);
            return v => new(v.Get(slotRecord), v.Get(slotDate), v.Get(slotHours), v.Get(slotValue));
        }
    );

    private static readonly ObjectShape<HistoryDocument.Trend> Trend = Shape.Object<HistoryDocument.Trend>(
        "history-trend",
        "A line through readings and when it comes to the limit.",
        o =>
        {
            var slotRate = o.Required("rate", Signed.Rate, "change in an hour", x => x.Rate);
            var slotLevel = o.Optional(
                "level",
                Shape.Number(0m, 1m),
                "how much the band covers",
                x => x.Level
            );
            var slotLeft = o.Optional("left", Signed.Hours, "hours to the limit", x => x.Left);
            var slotEarliest = o.Optional(
                "earliest",
                Signed.Hours,
                "fewest hours in the band",
                x => x.Earliest
            );
            var slotLatest = o.Optional(
                "latest",
                Signed.Hours,
                "most hours in the band; left out: no bound",
                x => x.Latest
            );
            var slotOn = o.Optional("on", Terms.Day, "the day, at the hours a week seen", x => x.On);
            var slotEarliestOn = o.Optional("earliestOn", Terms.Day, "the earliest day", x => x.EarliestOn);
            var slotLatestOn = o.Optional("latestOn", Terms.Day, "the latest day", x => x.LatestOn);
            return v =>
                new(
                    v.Get(slotRate),
                    v.Get(slotLevel),
                    v.Get(slotLeft),
                    v.Get(slotEarliest),
                    v.Get(slotLatest),
                    v.Get(slotOn),
                    v.Get(slotEarliestOn),
                    v.Get(slotLatestOn)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.Size> Size = Shape.Object<HistoryDocument.Size>(
        "history-size",
        "A wearing size against its limit.",
        o =>
        {
            var slotQuantity = o.Required("quantity", Choices.Quantity, "which size", x => x.Quantity);
            var slotPoints = o.Items("points", Point, Many, "readings, by day", x => x.Points);
            var slotLimit = o.Optional("limit", Terms.ExactLength, "the limit of the sheet", x => x.Limit);
            var slotRemaining = o.Optional(
                "remaining",
                Terms.ExactLength,
                "what is left to it",
                x => x.Remaining
            );
            var slotRobust = o.Optional(
                "robust",
                Trend,
                "line of Theil and Sen, grinds included",
                x => x.Robust
            );
            var slotLeastSquares = o.Optional(
                "leastSquares",
                Trend,
                "line of least squares",
                x => x.LeastSquares
            );
            var slotRunning = o.Optional(
                "running",
                Signed.Rate,
                "wear since the last grind alone",
                x => x.Running
            );
            var slotPerGrind = o.Optional(
                "perGrind",
                Terms.ExactLength,
                "what one grind takes off",
                x => x.PerGrind
            );
            var slotGrindsSeen = o.Required(
                "grindsSeen",
                Shape.Whole(0, Many),
                "grinds behind that; 0: by the sheet",
                x => x.GrindsSeen
            );
            var slotGrindsLeft = o.Optional(
                "grindsLeft",
                Shape.Whole(0, Many),
                "whole grinds left",
                x => x.GrindsLeft
            );
            return v =>
                new(
                    v.Get(slotQuantity),
                    v.Get(slotPoints),
                    v.Get(slotLimit),
                    v.Get(slotRemaining),
                    v.Get(slotRobust),
                    v.Get(slotLeastSquares),
                    v.Get(slotRunning),
                    v.Get(slotPerGrind),
                    v.Get(slotGrindsSeen),
                    v.Get(slotGrindsLeft)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.Relief> Relief = Shape.Object<HistoryDocument.Relief>(
        "history-relief",
        "When the relief is due. Derived.",
        o =>
        {
            var slotReadOn = o.Required("readOn", Terms.Day, "when the land was read", x => x.ReadOn);
            var slotLandThen = o.Required("landThen", Terms.ExactLength, "what it was", x => x.LandThen);
            var slotLandNow = o.Required(
                "landNow",
                Terms.ExactLength,
                "what the diameter lost since makes of it",
                x => x.LandNow
            );
            var slotDiameterLeft = o.Required(
                "diameterLeft",
                Terms.ExactLength,
                "diameter that can still go; negative: due",
                x => x.DiameterLeft
            );
            return v =>
                new(v.Get(slotReadOn), v.Get(slotLandThen), v.Get(slotLandNow), v.Get(slotDiameterLeft));
        }
    );

    private static readonly ObjectShape<HistoryDocument.Grind> Grind = Shape.Object<HistoryDocument.Grind>(
        "history-grind",
        "When the next grind is due.",
        o =>
        {
            var slotSince = o.Optional(
                "since",
                Terms.Day,
                "last grind; left out: none in these records",
                x => x.Since
            );
            var slotHours = o.Required("hours", Signed.Hours, "hours since", x => x.Hours);
            var slotDueIn = o.Optional("dueIn", Signed.Hours, "hours left; negative: overdue", x => x.DueIn);
            var slotOn = o.Optional("on", Terms.Day, "the day", x => x.On);
            return v => new(v.Get(slotSince), v.Get(slotHours), v.Get(slotDueIn), v.Get(slotOn));
        }
    );

    private static readonly ObjectShape<HistoryDocument.TakenUp> TakenUp =
        Shape.Object<HistoryDocument.TakenUp>(
            "history-take-up",
            "How fast the clearance is taken up. Common practice.",
            o =>
            {
                var slotSince = o.Required("since", Terms.Day, "counted from", x => x.Since);
                var slotSetAnew = o.Required(
                    "setAnew",
                    Shape.Flag,
                    "whether the clearance was set anew then",
                    x => x.SetAnew
                );
                var slotSteps = o.Required(
                    "steps",
                    Shape.Number(-Many, Many),
                    "steps in less steps out, mean of both sides",
                    x => x.Steps
                );
                var slotHours = o.Required("hours", Signed.Hours, "hours since", x => x.Hours);
                var slotRate = o.Required("rate", Signed.Rate, "take-up in an hour", x => x.Rate);
                var slotTimesOwn = o.Optional(
                    "timesOwn",
                    Shape.Number(-Many, Many),
                    "times its own median",
                    x => x.TimesOwn
                );
                var slotIsSignal = o.Required(
                    "isSignal",
                    Shape.Flag,
                    "much faster than usual",
                    x => x.IsSignal
                );
                var slotTimesNeighbours = o.Optional(
                    "timesNeighbours",
                    Shape.Number(0m, Many),
                    "times its neighbours, where it is the odd one out",
                    x => x.TimesNeighbours
                );
                return v =>
                    new(
                        v.Get(slotSince),
                        v.Get(slotSetAnew),
                        v.Get(slotSteps),
                        v.Get(slotHours),
                        v.Get(slotRate),
                        v.Get(slotTimesOwn),
                        v.Get(slotIsSignal),
                        v.Get(slotTimesNeighbours)
                    );
            }
        );

    private static readonly ObjectShape<HistoryDocument.Step> Step = Shape.Object<HistoryDocument.Step>(
        "history-step",
        "What one step of an adjuster really does. Derived.",
        o =>
        {
            var slotAdjuster = o.Required("adjuster", Choices.Adjuster, "what was turned", x => x.Adjuster);
            var slotQuantity = o.Required("quantity", Choices.Quantity, "what it moved", x => x.Quantity);
            var slotTrials = o.Required("trials", Shape.Whole(0, Many), "trials", x => x.Trials);
            var slotJobs = o.Required("jobs", Shape.Whole(0, Many), "jobs they come from", x => x.Jobs);
            var slotLower = o.Optional("lower", Terms.ExactLength, "least it can be", x => x.Lower);
            var slotBest = o.Optional("best", Terms.ExactLength, "best value", x => x.Best);
            var slotUpper = o.Optional("upper", Terms.ExactLength, "most it can be", x => x.Upper);
            var slotStated = o.Optional("stated", Terms.ExactLength, "by the sheet", x => x.Stated);
            var slotAnswer = o.Optional(
                "answer",
                Shape.Choice<StepAnswer>("A learned step against the stated one."),
                "held against the sheet",
                x => x.Answer
            );
            return v =>
                new(
                    v.Get(slotAdjuster),
                    v.Get(slotQuantity),
                    v.Get(slotTrials),
                    v.Get(slotJobs),
                    v.Get(slotLower),
                    v.Get(slotBest),
                    v.Get(slotUpper),
                    v.Get(slotStated),
                    v.Get(slotAnswer)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.Shield> Shield = Shape.Object<HistoryDocument.Shield>(
        "history-shield",
        "Whether a shield gap follows the reel. Derived.",
        o =>
        {
            var slotSince = o.Required("since", Terms.Day, "first reading", x => x.Since);
            var slotGapThen = o.Required("gapThen", Terms.ExactLength, "the gap then", x => x.GapThen);
            var slotOn = o.Required("on", Terms.Day, "later reading", x => x.On);
            var slotGapRead = o.Required("gapRead", Terms.ExactLength, "the gap read", x => x.GapRead);
            var slotExpected = o.Required(
                "expected",
                Terms.ExactLength,
                "what the wear of the reel makes of it",
                x => x.Expected
            );
            var slotFollows = o.Required("follows", Shape.Flag, "whether it follows", x => x.Follows);
            var slotLooksCopied = o.Required(
                "looksCopied",
                Shape.Flag,
                "the very figure of before",
                x => x.LooksCopied
            );
            return v =>
                new(
                    v.Get(slotSince),
                    v.Get(slotGapThen),
                    v.Get(slotOn),
                    v.Get(slotGapRead),
                    v.Get(slotExpected),
                    v.Get(slotFollows),
                    v.Get(slotLooksCopied)
                );
        }
    );

    public static readonly ObjectShape<HistoryDocument.OneUnit> OneUnit =
        Shape.Object<HistoryDocument.OneUnit>(
            "history-unit",
            "One unit over time.",
            o =>
            {
                var slotSite = o.Required("site", Shape.Line(FormatLimits.Title), "the site", x => x.Site);
                var slotUnit = o.Required("unit", Terms.Id<UnitWork>(), "the unit", x => x.Unit);
                var slotMachine = o.Required(
                    "machine",
                    Terms.Id<MachineVisit>(),
                    "the machine",
                    x => x.Machine
                );
                var slotArea = o.Optional("area", Shape.Line(FormatLimits.Title), "the area", x => x.Area);
                var slotSheet = o.Required("sheet", Terms.Identity, "its sheet", x => x.Sheet);
                var slotReel = o.Optional(
                    "reel",
                    Shape.Line(FormatLimits.Title),
                    "the reel in it",
                    x => x.Reel
                );
                var slotBedknife = o.Optional(
                    "bedknife",
                    Shape.Line(FormatLimits.Title),
                    "the bedknife in it",
                    x => x.Bedknife
                );
                var slotJobs = o.Required("jobs", Shape.Whole(0, Many), "jobs", x => x.Jobs);
                var slotHoursPerWeek = o.Optional(
                    "hoursPerWeek",
                    Signed.Hours,
                    "hours run in a week",
                    x => x.PerWeek
                );
                var slotSizes = o.Items("sizes", Size, Many, "wearing sizes", x => x.Sizes);
                var slotRelief = o.Optional("relief", Relief, "relief", x => x.Relief);
                var slotGrind = o.Optional("grind", Grind, "next grind", x => x.Grind);
                var slotTakeUp = o.Optional("takeUp", TakenUp, "take-up", x => x.TakeUp);
                var slotSteps = o.Items("steps", Step, Many, "adjusters", x => x.Steps);
                var slotShield = o.Optional("shield", Shield, "shield gap", x => x.Shield);
                return v =>
                    new(
                        v.Get(slotSite),
                        v.Get(slotUnit),
                        v.Get(slotMachine),
                        v.Get(slotArea),
                        v.Get(slotSheet),
                        v.Get(slotReel),
                        v.Get(slotBedknife),
                        v.Get(slotJobs),
                        v.Get(slotHoursPerWeek),
                        v.Get(slotSizes),
                        v.Get(slotRelief),
                        v.Get(slotGrind),
                        v.Get(slotTakeUp),
                        v.Get(slotSteps),
                        v.Get(slotShield)
                    );
            }
        );
}
