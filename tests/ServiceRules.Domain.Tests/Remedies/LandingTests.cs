using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>How far a prediction may be off: adjusters at 0 and 500 mm, step 0.0127 mm, the place at 100 mm.</summary>
public sealed class LandingTests
{
    private static readonly AdjusterPair Adjusters = AdjusterPair.TryCreate(
        Length.Zero,
        Mm(500m),
        Mm(0.0127m),
        Approach.Either,
        out var pair
    )
        ? pair
        : throw new InvalidOperationException("the pair is usable");

    private static readonly MeasuredValue Read = new(Mm(0.040m), StandardUncertainty.From(Mm(0.005m)));

    /// <summary>
    /// U 0.010. Left 3, right 1: (3·400 + 1·100)/500 = 2.6 steps of 0.001 doubt, and 0.0137·2/500·5 = 0.000274 by the lever.
    /// Left -3, right 1: abs(-2.2), and twice the lever.
    /// </summary>
    [Theory]
    [InlineData(3, 1, 0.001, 0.012874)]
    [InlineData(-3, 1, 0.001, 0.012748)]
    [InlineData(1, 3, 0.001, 0.011674)]
    [InlineData(2, 2, 0.001, 0.012)]
    [InlineData(3, 1, 0, 0.010254)]
    [InlineData(0, 0, 0.001, 0.010)]
    public void Doubt_OfAMeasuredValue_AddsReadingStepsAndLever(
        int left,
        int right,
        decimal step,
        decimal expected
    )
    {
        var landing = Of(Read);

        Assert.Equal(Mm(0.010m), landing.Reach);
        Assert.Equal(Mm(expected), landing.Doubt(Adjusters, left, right, Mm(step)));
    }

    /// <summary>As above without the reading: of an end of an interval the steps alone may be off.</summary>
    [Theory]
    [InlineData(3, 1, 0.001, 0.002874)]
    [InlineData(-3, 1, 0.001, 0.002748)]
    [InlineData(0, 0, 0.001, 0)]
    public void DoubtOfTheSteps_OfWhatIsOpen_AddsStepsAndLever(
        int left,
        int right,
        decimal step,
        decimal expected
    ) =>
        Assert.Equal(
            Mm(expected),
            Of(LengthInterval.AtLeast(Mm(0.02m))).DoubtOfTheSteps(Adjusters, left, right, Mm(step))
        );

    /// <summary>
    /// Adjusters at 50 and 450: (3·350 + 1·50)/400 = 2.75 steps of 0.001 doubt, and 0.0137·2/400·5 = 0.0003425 by the lever.
    /// </summary>
    [Fact]
    public void Doubt_AdjustersAwayFromTheEnds_GoesByTheirOwnLever()
    {
        Assert.True(AdjusterPair.TryCreate(Mm(50m), Mm(450m), Mm(0.0127m), Approach.Either, out var inboard));

        Assert.Equal(Mm(0.0130925m), Of(Read).Doubt(inboard, 3, 1, Mm(0.001m)));
    }

    /// <summary>The middle of 0.02 to 0.05 is 0.035; what is really known reaches 0.025 down to 0.01, or 0.03 up to 0.065.</summary>
    [Theory]
    [InlineData(0.02, 0.05, 0.015)]
    [InlineData(0.01, 0.05, 0.025)]
    [InlineData(0.02, 0.065, 0.030)]
    public void Reach_OfAnInterval_IsTheFurtherEndOfWhatIsKnown(decimal low, decimal high, decimal reach)
    {
        var landing = Of(LengthInterval.Between(Mm(0.02m), Mm(0.05m))) with
        {
            Known = LengthInterval.Between(Mm(low), Mm(high)),
        };

        Assert.Equal(Mm(reach), landing.Reach);
    }

    [Fact]
    public void Doubt_OfWhatIsOpen_IsNone()
    {
        Assert.Null(Of(LengthInterval.AtLeast(Mm(0.02m))).Doubt(Adjusters, 1, 1, Mm(0.001m)));
        Assert.Null((Of(Read) with { Known = LengthInterval.AtLeast(Mm(0.02m)) }).Reach);
        Assert.Null(
            (
                Of(LengthInterval.AtLeast(Mm(0.02m))) with
                {
                    Known = LengthInterval.Between(Mm(0.02m), Mm(0.03m)),
                }
            ).Reach
        );
    }

    /// <summary>Whatever of what is known is true, whatever a step obtains, wherever within 5 mm it is read: it lies within.</summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Doubt_AnyTruthWithinWhatIsKnown_HoldsWhatIsRead(
        byte at,
        sbyte left,
        sbyte right,
        byte reading,
        byte step,
        byte corner
    )
    {
        var (cL, cR) = (left / 8, right / 8);
        var (d, e, h) = (0.0127m, 0.0127m * step / 512m, reading / 10_000m);
        var x = at * 2m;
        var known = LengthInterval.Between(Mm(0.5m - h), Mm(0.5m + h));
        var landing = new Landing(LandingPlace.Station, Mm(x), known, known);
        var doubt = landing.Doubt(Adjusters, cL, cR, Mm(e))!.Value.Millimetres;

        decimal Sign(int bit) => (corner & (1 << bit)) == 0 ? 1m : -1m;
        decimal Moved(decimal one, decimal where) => one * ((cL * (500m - where)) + (cR * where)) / 500m;
        var predicted = 0.5m + Moved(d, x);
        var truth = 0.5m + (Sign(0) * h) + Moved(d + (Sign(1) * e), x + (Sign(2) * 5m));

        Assert.True(Math.Abs(truth - predicted) <= doubt + 1e-9m, $"{truth} against {predicted} ± {doubt}");
    }

    private static Landing Of(Knowledge before) => new(LandingPlace.Station, Mm(100m), before, before);
}
