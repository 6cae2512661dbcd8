using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;
using Check = ServiceRules.Rules.Model.Check;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>What must hold whatever is read and turned.</summary>
public class EvaluationPropertyTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check[] Checks =
    [
        OnTarget,
        new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides),
        new Check.LimitOnQuantity(
            MeasuredQuantity.Clearance,
            LimitSource.Sheet,
            CheckedPlaces.StationsAndEnds
        ),
        new Check.ProceduralLimit(MeasuredQuantity.Clearance),
        new Check.Freshness(MeasuredQuantity.HeightOfCut),
    ];

    private static string Thousandths(int count) =>
        (count * 0.0001m).ToString("0.0000", CultureInfo.InvariantCulture) + " in";

    private static string Millimetres(int count) =>
        (count * 0.00254m).ToString("0.00000", CultureInfo.InvariantCulture) + " mm";

    private static Arbitrary<int> Heights => Gen.Choose(1500, 1650).ToArbitrary();

    /// <summary>A bench log of heights, feelers and turns.</summary>
    private static Arbitrary<BenchEntry[]> Logs =>
        Gen.OneOf(
                from side in Gen.Elements("left", "right")
                from height in Gen.Choose(385, 415)
                select (BenchEntry)Height(
                    side,
                    (height * 0.01m).ToString("0.00", CultureInfo.InvariantCulture) + " mm"
                ),
                from side in Gen.Elements("left", "right")
                from feeler in Gen.Elements("0.0005 in", "0.001 in", "0.0015 in", "0.002 in")
                from passes in Gen.Elements(true, false)
                select (BenchEntry)Feeler(side, feeler, passes),
                from side in Gen.Elements(Side.Left, Side.Right, Side.Both)
                from count in Gen.Choose(1, 2)
                select (BenchEntry)Open(side, count)
            )
            .ArrayOf(12)
            .ToArbitrary();

    /// <summary>
    /// 0.060 in is printed beside 1.5 mm, 0.040 in beside 1.0 mm: one exact length read in either system may be judged
    /// differently only between the two prints (a guard moves both alike), and the finding says so.
    /// </summary>
    [Property(MaxTest = 1000)]
    public Property Evaluate_SameReadingAgainstTwoPrints_PartsOnlyBetweenThem() =>
        Prop.ForAll(
            Gen.Choose(350, 650).ToArbitrary(),
            Gen.Elements(RuleDecision.Simple, RuleDecision.Guarded).ToArbitrary(),
            (gap, decision) =>
            {
                var inches = Shield(Thousandths(gap), decision);
                var metric = Shield(Millimetres(gap), decision);
                var value = gap * 0.00254m;
                // U of the gauge is 0.013013 mm.
                var guard = decision == RuleDecision.Simple ? 0m : 0.0130131m;
                var isBetween =
                    (value > 1.5m - guard && value <= 1.524m + guard)
                    || (value >= 1.0m - guard && value < 1.016m + guard);
                return inches.Verdict == metric.Verdict
                    || (isBetween && !inches.Notices.IsEmpty && !metric.Notices.IsEmpty);
            }
        );

    private static CheckOutcome Shield(string gap, RuleDecision decision)
    {
        var sheet = Sheet with
        {
            Quantities =
            [
                new()
                {
                    Quantity = MeasuredQuantity.ShieldGap,
                    Lower = D("0.040 in", "1.0 mm"),
                    Upper = D("0.060 in", "1.5 mm"),
                    Basis = new(BasisKind.CommonPractice, null, null),
                },
            ],
        };
        var frame = FrameBuilder.Build(
            Record(Unit(Measured(MeasuredQuantity.ShieldGap, null, gap))),
            Context,
            Book(sheet)
        );
        var check = new Check.LimitOnQuantity(
            MeasuredQuantity.ShieldGap,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        );
        return CheckEvaluation.Evaluate(RuleFor(check, decision), frame, frame.Units[0]);
    }

    [Property(MaxTest = 1000)]
    public Property Evaluate_SameReadingInOtherUnits_GetsTheSameVerdict() =>
        Prop.ForAll(
            Heights,
            Heights,
            (left, right) =>
            {
                var inches = Judge(
                    OnTarget,
                    Height("left", Thousandths(left)),
                    Height("right", Thousandths(right))
                );
                var metric = Judge(
                    OnTarget,
                    Height("left", Millimetres(left)),
                    Height("right", Millimetres(right))
                );
                return inches.Verdict == metric.Verdict && inches.Reason == metric.Reason;
            }
        );

    [Property(MaxTest = 1000)]
    public Property Evaluate_UnfitGauges_NeverProveAndNeverSoften() =>
        Prop.ForAll(
            Logs,
            log =>
                Checks
                    .Take(3)
                    .All(check =>
                    {
                        var fit = Judge(check, log).Verdict;
                        var unfit = Judge(check, With(log, Faulty)).Verdict;
                        return unfit != Verdict.Met && (fit == Verdict.NotMet) == (unfit == Verdict.NotMet);
                    })
        );

    [Property(MaxTest = 1000)]
    public Property Evaluate_BothSidesOrOneAfterTheOther_IsTheSame() =>
        Prop.ForAll(
            Logs,
            log =>
            {
                BenchEntry[] split = [.. log.SelectMany(OneSideAtATime)];
                return Checks.All(check => Judge(check, log).Verdict == Judge(check, split).Verdict);
            }
        );

    [Property(MaxTest = 1000)]
    public Property Evaluate_AdjusterTurnedLastByAnUnknownAmount_LeavesNothingMet() =>
        Prop.ForAll(
            Logs,
            log =>
                Checks
                    .Where(check => check != OnTarget && check is not Check.Spread and not Check.Freshness)
                    .All(check =>
                        Judge(check, [.. log, Moved(AdjusterKind.Clearance)]).Verdict is Verdict.Unproven
                    )
        );

    private static JobFrame With(BenchEntry[] log, Func<Instrument, Instrument> change) =>
        FrameBuilder.Build(
            Record(Unit(log)) with
            {
                Instruments = [.. Instruments.Select(change)],
            },
            Context,
            Book()
        );

    private static Instrument Faulty(Instrument gauge) =>
        gauge with
        {
            Inspection = new(Day, Condition.Faulty),
        };

    private static IEnumerable<BenchEntry> OneSideAtATime(BenchEntry entry) =>
        entry is Adjustment { Side: Side.Both, Amount: AdjustmentAmount.Steps steps }
            ? Enumerable
                .Range(0, steps.Count)
                .SelectMany(_ => new BenchEntry[] { Open(Side.Left, 1), Open(Side.Right, 1) })
            : [entry];
}
