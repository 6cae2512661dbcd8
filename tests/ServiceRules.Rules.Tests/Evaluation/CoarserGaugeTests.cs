using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;
using Check = ServiceRules.Rules.Model.Check;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>Whatever a check makes of its readings: the same readings by a worse gauge prove nothing that they did not prove.</summary>
public class CoarserGaugeTests
{
    private static readonly Check[] Checks =
    [
        new Check.LimitOnQuantity(
            MeasuredQuantity.ReelDiameter,
            LimitSource.Sheet,
            CheckedPlaces.StationsAndEnds
        ),
        new Check.Spread(MeasuredQuantity.ReelDiameter, SpreadAcross.Sides),
        new Check.Parallelism(MeasuredQuantity.ReelDiameter, DatumMethod.LeastSquares),
        new Check.ReelForm(ReelFormOf.Taper),
        new Check.ReelForm(ReelFormOf.Barrel),
    ];

    private static readonly RuleDecision[] Decisions =
    [
        RuleDecision.Guarded,
        RuleDecision.Guarded with
        {
            LimitItself = LimitItself.Excluded,
        },
    ];

    // Every limit about as wide as what gauges of these steps leave in doubt, so that all verdicts occur.
    private static readonly LimitSheet Sized = Sheet with
    {
        Quantities =
        [
            new()
            {
                Quantity = MeasuredQuantity.ReelDiameter,
                LeftStation = L("51 mm"),
                RightStation = L("459 mm"),
                Lower = D("127.95 mm"),
                Upper = D("128.05 mm"),
                SideToSide = D("0.05 mm"),
                Parallelism = D("0.06 mm"),
                Taper = D("0.05 mm"),
                Barrel = D("0.05 mm"),
                Basis = new(BasisKind.CommonPractice, null, null),
            },
        ],
    };

    private static Gen<Instrument> Gauges(string id) =>
        from step in Gen.Choose(1, 20)
        from repeats in Gen.Choose(1, 12)
        from studied in Gen.Choose(0, 6)
        from certificate in Gen.Choose(1, 30)
        select Gauge(id, step, repeats, studied, certificate);

    private static Instrument Gauge(string id, int step, int repeats, int studied, int certificate) =>
        new()
        {
            Id = new(id),
            Kind = InstrumentKind.DiameterTape,
            Resolution = L(Mm(step)),
            Repeatability = studied == 0 && repeats > 0 ? L(Mm(repeats)) : null,
            RepeatabilityStudies = studied > 0 && repeats > 0 ? [new(L(Mm(repeats)), studied)] : [],
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L(Mm(certificate)), 2m),
        };

    private static string Mm(int thousandths) =>
        FormattableString.Invariant($"{thousandths / 1000m:0.000} mm");

    private static PrintedLength More(PrintedLength? length, int thousandths) =>
        L(
            FormattableString.Invariant(
                $"{(length?.Value.Millimetres ?? 0) + (thousandths / 1000m):0.000} mm"
            )
        );

    private static Instrument Worse(Instrument gauge, int what, int by) =>
        what switch
        {
            0 => gauge with { Resolution = More(gauge.Resolution, by) },
            1 when !gauge.RepeatabilityStudies.IsEmpty => gauge with
            {
                RepeatabilityStudies =
                [
                    .. gauge.RepeatabilityStudies.Select(study =>
                        study with
                        {
                            Deviation = More(study.Deviation, by),
                        }
                    ),
                ],
            },
            1 => gauge with { Repeatability = More(gauge.Repeatability, by) },
            _ => gauge with
            {
                Calibration = gauge.Calibration! with
                {
                    ExpandedUncertainty = More(gauge.Calibration!.ExpandedUncertainty, by),
                },
            },
        };

    private static Gen<Reading> Readings(string at) =>
        from off in Gen.Choose(-60, 60)
        from scale in Gen.Elements(0.1m, 0.3m, 1m)
        from second in Gen.Frequency((3, Gen.Constant(false)), (1, Gen.Constant(true)))
        select Measured(
            MeasuredQuantity.ReelDiameter,
            at,
            FormattableString.Invariant($"{128 + (off * scale / 1000):0.0000} mm"),
            second ? "T-2" : "T-1"
        );

    [Property(MaxTest = 1000)]
    public Property Evaluate_AWorseGauge_ProvesNothingMore() =>
        Prop.ForAll(
            (
                from first in Gauges("T-1")
                from second in Gauges("T-2")
                from left in Readings("left")
                from right in Readings("right")
                from between in Gen.SubListOf("105 mm", "middle", "390 mm", "485 mm")
                from others in Gen.CollectToSequence(between.Select(Readings))
                from which in Gen.Elements(0, 1)
                from what in Gen.Choose(0, 2)
                from more in Gen.Choose(1, 20)
                from decision in Gen.Elements(Decisions)
                select (
                    Gauges: ImmutableArray.Create(first, second),
                    Log: (BenchEntry[])[left, .. others, right],
                    which,
                    what,
                    more,
                    decision
                )
            ).ToArbitrary(),
            drawn =>
            {
                var worse = drawn.Gauges.SetItem(
                    drawn.which,
                    Worse(drawn.Gauges[drawn.which], drawn.what, drawn.more)
                );
                return Checks
                    .Select(check =>
                    {
                        var (was, became) = (
                            Judged(check, drawn.Gauges, drawn.Log, drawn.decision),
                            Judged(check, worse, drawn.Log, drawn.decision)
                        );
                        return (became == was || became is Verdict.Unproven).Label(
                            $"{check}: {was} became {became}"
                        );
                    })
                    .Aggregate((all, each) => all.And(each));
            }
        );

    private static Verdict Judged(
        Check check,
        ImmutableArray<Instrument> gauges,
        BenchEntry[] log,
        RuleDecision decision
    )
    {
        var frame = FrameBuilder.Build(Record(Unit(log)) with { Instruments = gauges }, Context, Book(Sized));
        return CheckEvaluation.Evaluate(RuleFor(check, decision), frame, frame.Units[0]).Verdict;
    }
}
