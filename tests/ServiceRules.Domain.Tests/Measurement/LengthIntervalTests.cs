using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class LengthIntervalTests
{
    [Fact]
    public void Meet_PassingAndNotPassingFeeler_BoundsTheGapWithTheirTolerances()
    {
        // Passes 0.0254 ± 0.003; 0.0508 ± 0.003 does not pass.
        var passes = LengthInterval.FeelerPasses(Mm(0.0254m), Mm(0.003m));
        var stops = LengthInterval.FeelerDoesNotPass(Mm(0.0508m), Mm(0.003m));

        var overlap = Assert.IsType<IntervalMeeting.Overlap>(passes.Meet(stops)).Interval;

        Assert.Equal(IntervalEnd.Closed(Mm(0.0224m)), overlap.Lower);
        Assert.Equal(IntervalEnd.Open(Mm(0.0538m)), overlap.Upper);
        Assert.Equal("[0.0224 mm, 0.0538 mm[", overlap.ToString());
    }

    [Fact]
    public void Meet_LargerFeelerPassesWhereSmallerDoesNot_IsAContradiction()
    {
        var passes = LengthInterval.FeelerPasses(Mm(0.06m), Mm(0.003m));
        var stops = LengthInterval.FeelerDoesNotPass(Mm(0.04m), Mm(0.003m));

        var contradiction = Assert.IsType<IntervalMeeting.Contradiction>(passes.Meet(stops));

        Assert.Equal(passes, contradiction.First);
        Assert.Equal(stops, contradiction.Second);
    }

    [Fact]
    public void Meet_EndsTouchWithOneOpen_IsAContradiction()
    {
        Assert.IsType<IntervalMeeting.Contradiction>(
            LengthInterval.AtLeast(Mm(0.05m)).Meet(LengthInterval.LessThan(Mm(0.05m)))
        );
        Assert.IsType<IntervalMeeting.Overlap>(
            LengthInterval.AtLeast(Mm(0.05m)).Meet(LengthInterval.Between(Mm(0.01m), Mm(0.05m)))
        );
    }

    [Fact]
    public void ShiftedBy_AStepBetweenTwoTests_ClosesTheBackingOffBracket()
    {
        // 0.0254 does not pass; one step of 0.0127 opens; 0.0254 passes: the gap is in [0.0254, 0.0381[.
        var before = LengthInterval.FeelerDoesNotPass(Mm(0.0254m), Mm(0m));
        var carried = Assert.IsType<LengthInterval>(before.ShiftedBy(Mm(0.0127m), Mm(0m)));

        var overlap = Assert.IsType<IntervalMeeting.Overlap>(
            carried.Meet(LengthInterval.FeelerPasses(Mm(0.0254m), Mm(0m)))
        );

        Assert.Equal("[0.0254 mm, 0.0381 mm[", overlap.Interval.ToString());
    }

    [Fact]
    public void ShiftedBy_AnUncertainMovement_WidensBothEnds()
    {
        var shifted = LengthInterval.Between(Mm(1m), Mm(2m)).ShiftedBy(Mm(0.5m), Mm(0.1m));

        Assert.Equal(LengthInterval.Between(Mm(1.4m), Mm(2.6m)), shifted);
    }

    [Fact]
    public void Between_CrossedEnds_IsRefused() =>
        Assert.Throws<ArgumentException>(() => LengthInterval.Between(Mm(2m), Mm(1m)));

    [Fact]
    public void Between_CrossedEnds_NamesBothAndTheOrder() =>
        Assert.StartsWith(
            "`2 mm` is above `1 mm`; accepted is lower end first",
            Assert.Throws<ArgumentException>(() => LengthInterval.Between(Mm(2m), Mm(1m))).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void FeelerPasses_ToleranceBelowNothing_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => LengthInterval.FeelerPasses(Mm(0.05m), Mm(-0.001m)));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            LengthInterval.FeelerDoesNotPass(Mm(0.05m), Mm(-0.001m))
        );
    }

    [Fact]
    public void ShiftedBy_HalfWidthBelowNothing_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            LengthInterval.Between(Mm(1m), Mm(2m)).ShiftedBy(Mm(0m), Mm(-0.1m))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MeasuredValue.Exact(Mm(1m)).ShiftedBy(Mm(0m), Mm(-0.1m))
        );
    }

    [Fact]
    public void ToString_EveryKindOfEnd_IsTheStandardNotation()
    {
        Assert.True(
            LengthInterval.TryCreate(
                IntervalEnd.Open(Mm(0.02m)),
                IntervalEnd.Closed(Mm(0.03m)),
                out var interval
            )
        );

        Assert.Equal("]0.02 mm, 0.03 mm]", interval.ToString());
        Assert.Equal("[0.02 mm, ∞[", LengthInterval.AtLeast(Mm(0.02m)).ToString());
        Assert.Equal("]-∞, 0.03 mm[", LengthInterval.LessThan(Mm(0.03m)).ToString());
        Assert.Equal("]-∞, ∞[", LengthInterval.Unbounded.ToString());
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Meet_AnyTwo_NeverWidensAndNeverDependsOnOrder(
        sbyte a,
        byte widthA,
        bool aLowClosed,
        bool aHighClosed,
        sbyte b,
        byte widthB,
        bool bLowClosed,
        bool bHighClosed
    )
    {
        if (
            !LengthInterval.TryCreate(
                new(Mm(a % 5), aLowClosed),
                new(Mm((a % 5) + (widthA % 6)), aHighClosed),
                out var first
            )
            || !LengthInterval.TryCreate(
                new(Mm(b % 5), bLowClosed),
                new(Mm((b % 5) + (widthB % 6)), bHighClosed),
                out var second
            )
        )
        {
            return;
        }

        var meeting = first.Meet(second);
        for (var half = -24; half <= 24; half++)
        {
            var value = Mm(half * 0.5m);
            var expected = first.Contains(value) && second.Contains(value);
            var actual = meeting is IntervalMeeting.Overlap overlap && overlap.Interval.Contains(value);
            Assert.Equal(expected, actual);
        }

        Assert.Equal(
            (meeting as IntervalMeeting.Overlap)?.Interval,
            (second.Meet(first) as IntervalMeeting.Overlap)?.Interval
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Hull_AnyTwo_HoldsBothAndWhatLiesBetweenAndNoMore(
        sbyte a,
        byte widthA,
        bool aLowClosed,
        bool aHighClosed,
        sbyte b,
        byte widthB,
        bool bLowClosed,
        bool bHighClosed
    )
    {
        if (
            !LengthInterval.TryCreate(
                new(Mm(a % 5), aLowClosed),
                new(Mm((a % 5) + (widthA % 6)), aHighClosed),
                out var first
            )
            || !LengthInterval.TryCreate(
                new(Mm(b % 5), bLowClosed),
                new(Mm((b % 5) + (widthB % 6)), bHighClosed),
                out var second
            )
        )
        {
            return;
        }

        var hull = first.Hull(second);
        var values = Enumerable.Range(-24, 49).Select(half => Mm(half * 0.5m)).ToList();
        var held = values.FindAll(value => first.Contains(value) || second.Contains(value));
        Assert.Equal(
            values.Where(value => held.Exists(h => h <= value) && held.Exists(h => h >= value)),
            values.Where(hull.Contains)
        );
        Assert.Equal(hull, second.Hull(first));
    }

    [Fact]
    public void Hull_WithAnEndMissing_MissesIt()
    {
        var some = LengthInterval.Between(Mm(1m), Mm(2m));

        Assert.Equal(LengthInterval.AtLeast(Mm(1m)), some.Hull(LengthInterval.AtLeast(Mm(1.5m))));
        Assert.Equal(LengthInterval.LessThan(Mm(3m)), LengthInterval.LessThan(Mm(3m)).Hull(some));
    }
}
