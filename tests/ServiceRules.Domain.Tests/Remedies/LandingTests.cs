using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>How far a prediction may be off.</summary>
public sealed class LandingTests
{
    private static AdjusterPair Pair(decimal step) =>
        AdjusterPair.TryCreate(Mm(0m), Mm(500m), Mm(step), Approach.Either, out var pair)
            ? pair
            : throw new InvalidOperationException("a step above zero and adjusters apart make a pair");

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static Landing At(decimal station, Knowledge known) =>
        new(LandingPlace.Station, Mm(station), known, known);

    /// <summary>
    /// Left closed by four steps of 0.0127 ± 0.0002 mm, right by two; 50 mm of 500 in, that counts as 3.8 steps: 0.003 of the reading,
    /// 3.8·0.0002 = 0.00076 of the steps, and 0.0129·2·5/500 = 0.000258 of where it is met.
    /// </summary>
    [Fact]
    public void Doubt_ReadingStepsAndLever_AddUp() =>
        Assert.Equal(
            Mm(0.004018m),
            At(50m, LengthInterval.Between(Mm(0.087m), Mm(0.093m))).Doubt(Pair(0.0127m), -4, -2, Mm(0.0002m))
        );

    [Fact]
    public void Doubt_EstimateWithinBoundsToOneSide_ReachesToTheFurtherOne() =>
        Assert.Equal(
            Mm(0.006m),
            (
                At(250m, MeasuredValue.Exact(Mm(0.09m))) with
                {
                    Known = LengthInterval.Between(Mm(0.089m), Mm(0.096m)),
                }
            ).Doubt(Pair(0.0127m), -4, -4, Length.Zero)
        );

    [Fact]
    public void Doubt_OfWhatIsOpenOnASide_IsNone() =>
        Assert.Null(At(50m, LengthInterval.AtLeast(Mm(0.09m))).Doubt(Pair(0.0127m), -1, -1, Length.Zero));

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
        var landing = At(x, LengthInterval.Between(Mm(0.5m - h), Mm(0.5m + h)));
        var doubt = landing.Doubt(Pair(d), cL, cR, Mm(e))!.Value.Millimetres;

        decimal Sign(int bit) => (corner & (1 << bit)) == 0 ? 1m : -1m;
        decimal Moved(decimal one, decimal where) => one * ((cL * (500m - where)) + (cR * where)) / 500m;
        var predicted = 0.5m + Moved(d, x);
        var truth = 0.5m + (Sign(0) * h) + Moved(d + (Sign(1) * e), x + (Sign(2) * 5m));

        Assert.True(Math.Abs(truth - predicted) <= doubt + 1e-9m, $"{truth} against {predicted} ± {doubt}");
    }
}
