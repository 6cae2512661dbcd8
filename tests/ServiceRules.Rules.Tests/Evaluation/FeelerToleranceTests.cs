using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>No feeler is exact, and a gauge that repeats without any scatter states nothing.</summary>
public class FeelerToleranceTests
{
    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.Stations
    );

    [Theory]
    [InlineData("0.0000 in")]
    [InlineData("0.0000001 in")]
    [InlineData("0.001 mm")]
    [InlineData("0.002 mm")]
    public void Tolerance_StatedFinerThanSetsAreMade_CountsAsTheLeast(string stated)
    {
        var frame = FrameOf(stated, Feeler("left", "0.001 in", true), Feeler("left", "0.002 in", false));

        var known = Assert.IsType<LengthInterval>(Left(frame, MeasuredQuantity.Clearance, 51m).Knowledge);

        Assert.Equal(Mm(0.0254m - 0.002m), known.Lower!.Value.Value);
        Assert.Equal(Mm(0.0508m + 0.002m), known.Upper!.Value.Value);
    }

    [Theory]
    [InlineData("0 mm", true)]
    [InlineData("0.0000001 in", true)]
    [InlineData("0.002 mm", false)]
    [InlineData("0.0001 in", false)]
    public void Tolerance_StatedFinerThanSetsAreMade_IsTold(string stated, bool isTold)
    {
        var outcome = Judge(
            Limit,
            FrameOf(
                stated,
                Feeler("left", "0.001 in", true),
                Feeler("left", "0.002 in", false),
                Feeler("right", "0.001 in", true),
                Feeler("right", "0.002 in", false)
            )
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            isTold,
            outcome.Notices.Contains(
                $"left (51 mm) and right (459 mm): the feelers are stated to be true to {stated}, and no set is made truer than 0.002 mm: that is counted (common practice, no source)"
            )
        );
    }

    /// <summary>A limit of 0.0005 in, and a feeler of 0.0005 in that passes: exact it would prove it, and none is.</summary>
    [Fact]
    public void Tolerance_OfNothing_ProvesNoLimitThatLiesOnTheFeeler()
    {
        var outcome = Judge(
            Limit,
            FrameOf(
                "0 mm",
                Feeler("left", "0.0005 in", true),
                Feeler("left", "0.001 in", false),
                Feeler("right", "0.0005 in", true),
                Feeler("right", "0.001 in", false)
            )
        );

        Assert.Equal(
            (Verdict.Unproven, FindingReason.IntervalCrossesLimit),
            (outcome.Verdict, outcome.Reason)
        );
    }

    [Theory]
    [InlineData("0.000 mm", "no repeatability (0.000 mm is none)")]
    [InlineData("0.00001 mm", "no repeatability (0.00001 mm is none)")]
    [InlineData("0.003 mm", null)]
    public void Repeatability_OfNothing_IsNoStatementOfOne(string stated, string? told)
    {
        var gauge = Instruments[0] with { Repeatability = L(stated), ZeroCheck = new(L("0.00 mm"), null) };

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Recency(RecencyOf.Instruments)),
            FrameBuilder.Build(Record(Unit()) with { Instruments = [gauge] }, Context, Book()),
            unit: null
        );

        Assert.Equal(
            told is not null,
            outcome.Notices.Contains(
                $"gauge HG-01 states {told}: taken for want of one is half a step that it shows for how its readings scatter (common practice, no source)"
            )
        );
    }

    private static JobFrame FrameOf(string tolerance, params BenchEntry[] entries) =>
        FrameBuilder.Build(
            Record(Unit(entries)) with
            {
                Instruments = [Instruments[1] with { Tolerance = L(tolerance) }],
            },
            Context,
            Book()
        );
}
