using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;
using Check = ServiceRules.Rules.Model.Check;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>A gauge of which less is said proves no more than the same gauge of which all is said.</summary>
public class SilentGaugeTests
{
    private static readonly Check[] Checks =
    [
        new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.Sheet,
            CheckedPlaces.StationsAndEnds
        ),
        new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides),
        new Check.Parallelism(MeasuredQuantity.HeightOfCut, DatumMethod.LeastSquares),
    ];

    // About as wide as what the gauges below leave in doubt, so that all verdicts occur.
    private static readonly LimitSheet Sized = Sheet with
    {
        Quantities =
        [
            new()
            {
                Quantity = MeasuredQuantity.HeightOfCut,
                LeftStation = L("51 mm"),
                RightStation = L("459 mm"),
                Lower = D("3.95 mm"),
                Upper = D("4.05 mm"),
                SideToSide = D("0.06 mm"),
                Parallelism = D("0.06 mm"),
                Basis = new(BasisKind.CommonPractice, null, null),
            },
        ],
    };

    /// <summary>Everything stated, and nothing of it worse than what is taken for want of it: half a step, and 0.0005 in.</summary>
    private static Gen<Instrument> Stated(string id) =>
        from step in Gen.Choose(5, 20)
        from repeats in Gen.Choose(1, 20)
        from zero in Gen.Choose(-12, 12)
        from certificate in Gen.Choose(1, 23)
        from degrees in Gen.Elements<int?>(null, 2, 5)
        from kind in Gen.Elements(InstrumentKind.HeightGauge, InstrumentKind.DialGauge)
        select new Instrument
        {
            Id = new(id),
            Kind = kind,
            Resolution = L(Mm(step)),
            Repeatability = L(Mm(Math.Min(repeats, step / 2))),
            ZeroCheck = new(L(Mm(zero)), null),
            Calibration = new(
                new(2026, 1, 10),
                new(2027, 1, 10),
                L(Mm(Math.Max(1, step * certificate / 10))),
                2m
            )
            {
                DegreesOfFreedom = degrees,
            },
        };

    /// <summary>
    /// U on 2 degrees of freedom is 4.53 u, which is more than the two steps that are taken for want of a certificate: such a one is
    /// worse than none, and its loss proves more by what it says and not by silence.
    /// </summary>
    private static Instrument WellKnown(Instrument gauge) =>
        gauge with
        {
            Calibration = gauge.Calibration! with { DegreesOfFreedom = null },
        };

    [Property(MaxTest = 1000)]
    public Property Evaluate_AGaugeThatSaysLess_ProvesNothingMore() =>
        Prop.ForAll(
            (
                from first in Stated("G-1")
                from second in Stated("G-2")
                from left in Readings("left")
                from right in Readings("right")
                from between in Gen.SubListOf("105 mm", "middle", "390 mm", "485 mm")
                from others in Gen.CollectToSequence(between.Select(Readings))
                from which in Gen.Elements(0, 1)
                from what in Gen.Choose(1, 7)
                select (
                    Gauges: ImmutableArray.Create(first, second),
                    Log: (BenchEntry[])[left, .. others, right],
                    which,
                    what
                )
            ).ToArbitrary(),
            drawn =>
            {
                var noCertificate = (drawn.what & 4) != 0;
                var known = noCertificate ? WellKnown(drawn.Gauges[drawn.which]) : drawn.Gauges[drawn.which];
                // An error that is left out moves what is judged, either way; how well it is known is what this is about.
                var said = (drawn.what & 2) == 0 ? known : known with { ZeroCheck = new(L("0.00 mm"), null) };
                var less = said with
                {
                    Repeatability = (drawn.what & 1) == 0 ? said.Repeatability : null,
                    ZeroCheck = (drawn.what & 2) == 0 ? said.ZeroCheck : null,
                    Calibration = noCertificate ? null : said.Calibration,
                };
                var full = drawn.Gauges.SetItem(drawn.which, said);
                var silent = drawn.Gauges.SetItem(drawn.which, less);
                return Checks
                    .Select(check =>
                    {
                        var was = Judged(check, full, drawn.Log);
                        var became = Judged(check, silent, drawn.Log);
                        return (became == was || became is not Verdict.Met).Label(
                            $"{check}: {was} became {became}"
                        );
                    })
                    .Aggregate((all, each) => all.And(each));
            }
        );

    /// <summary>By hand: 0.0127/√3 = 0.0073324 of the zero, 0.005/√2 = 0.0035355 of two readings; the tape's zero is 0.127/√3.</summary>
    [Theory]
    [InlineData(InstrumentKind.HeightGauge, UncertaintySource.ZeroUnchecked, 0.0073324)]
    [InlineData(InstrumentKind.HeightGauge, UncertaintySource.RepeatabilityUnstated, 0.0035355)]
    [InlineData(InstrumentKind.DiameterTape, UncertaintySource.ZeroUnchecked, 0.0733235)]
    public void Budget_OfAGaugeThatSaysNothing_ShowsWhatIsTaken(
        InstrumentKind kind,
        UncertaintySource source,
        double expected
    )
    {
        var quantity =
            kind is InstrumentKind.DiameterTape
                ? MeasuredQuantity.ReelDiameter
                : MeasuredQuantity.HeightOfCut;
        var gauge = new Instrument
        {
            Id = new("G-1"),
            Kind = kind,
            Resolution = L("0.01 mm"),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.010 mm"), 2m),
        };
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Measured(quantity, "left", "4.00 mm", "G-1"),
                    Measured(quantity, "left", "4.00 mm", "G-1")
                )
            ) with
            {
                Instruments = [gauge],
            },
            Context,
            Book()
        );

        var place = Assert.Single(frame.Units[0].Of(quantity)!.Left);
        var budget = StatedBudget.Of(Assert.IsType<MeasuredValue>(place.Knowledge));

        var line = Assert.Single(budget.Contributions, one => one.Source == source);
        Assert.Equal(expected, (double)line.Uncertainty.Value.Millimetres, 6);
    }

    [Fact]
    public void Budget_OfAPieceOfFixedSize_TakesNothingForAZeroThatItDoesNotHave()
    {
        var piece = new Instrument
        {
            Id = new("G-1"),
            Kind = InstrumentKind.FixedSizePiece,
            Tolerance = L("0.01 mm"),
        };
        var frame = FrameBuilder.Build(
            Record(Unit(Measured(MeasuredQuantity.HeightOfCut, "left", "4.00 mm", "G-1"))) with
            {
                Instruments = [piece],
            },
            Context,
            Book()
        );

        var place = Assert.Single(frame.Units[0].Of(MeasuredQuantity.HeightOfCut)!.Left);
        var budget = StatedBudget.Of(Assert.IsType<MeasuredValue>(place.Knowledge));

        Assert.DoesNotContain(
            budget.Contributions,
            one => one.Source is UncertaintySource.ZeroUnchecked or UncertaintySource.RepeatabilityUnstated
        );
    }

    /// <summary>A dial gauge by the register that the record calls a feeler has a zero and a scale all the same.</summary>
    [Theory]
    [InlineData(InstrumentKind.FeelerGauge, InstrumentKind.DialGauge, true)]
    [InlineData(InstrumentKind.DialGauge, InstrumentKind.FeelerGauge, true)]
    [InlineData(InstrumentKind.FeelerGauge, InstrumentKind.FeelerGauge, false)]
    public void Budget_OfAGaugeOfTwoKinds_TakesWhatEitherCallsFor(
        InstrumentKind recorded,
        InstrumentKind registered,
        bool isTaken
    )
    {
        var gauge = new Instrument
        {
            Id = new("G-1"),
            Kind = recorded,
            Resolution = L("0.01 mm"),
        };
        var entry = new RegisteredInstrument(
            gauge.Id,
            registered,
            L("0.01 mm"),
            L("0.01 mm"),
            [MeasuredQuantity.Clearance]
        );
        var read = Measured(MeasuredQuantity.Clearance, "left", "0.05 mm", "G-1");
        var frame = FrameBuilder.Build(
            Record(Unit(read)) with
            {
                Instruments = [gauge],
            },
            Context with
            {
                Instruments = [entry],
            },
            Book()
        );

        var place = Assert.Single(frame.Units[0].Of(MeasuredQuantity.Clearance)!.Left);
        var budget = StatedBudget.Of(Assert.IsType<MeasuredValue>(place.Knowledge));

        Assert.Equal(
            (isTaken, isTaken),
            (
                budget.Contributions.Any(one => one.Source is UncertaintySource.ZeroUnchecked),
                budget.Contributions.Any(one => one.Source is UncertaintySource.RepeatabilityUnstated)
            )
        );
    }

    private static Gen<Reading> Readings(string at) =>
        from off in Gen.Choose(-60, 60)
        from scale in Gen.Elements(0.1m, 0.3m, 1m)
        from second in Gen.Frequency((3, Gen.Constant(false)), (1, Gen.Constant(true)))
        select Measured(
            MeasuredQuantity.HeightOfCut,
            at,
            FormattableString.Invariant($"{4 + (off * scale / 1000):0.0000} mm"),
            second ? "G-2" : "G-1"
        );

    private static string Mm(int thousandths) =>
        FormattableString.Invariant($"{thousandths / 1000m:0.000} mm");

    private static Verdict Judged(Check check, ImmutableArray<Instrument> gauges, BenchEntry[] log)
    {
        var frame = FrameBuilder.Build(Record(Unit(log)) with { Instruments = gauges }, Context, Book(Sized));
        return CheckEvaluation.Evaluate(RuleFor(check), frame, frame.Units[0]).Verdict;
    }
}
