using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class LeverPlaceTests
{
    /// <summary>
    /// Adjusters at 200 and 300 mm, steps of 0.005 to 0.02 mm: the left end hangs three spans from the right adjuster and
    /// two from the left one, beyond it. A left step that opens adds at least 0.005 x 300, one that closes takes up to
    /// 0.02 x 300; a right step that opens takes up to 0.02 x 200, one that closes adds at least 0.005 x 200.
    /// </summary>
    [Theory]
    [InlineData(1, 0, 0, 0, 1.5)]
    [InlineData(0, 1, 0, 0, -6)]
    [InlineData(0, 0, 1, 0, -4)]
    [InlineData(0, 0, 0, 1, 1)]
    [InlineData(2, 1, 1, 3, -4)]
    public void LeastMoved_AtAnEndBeyondAnAdjuster_CountsEachStepAtItsWorst(
        int leftOpened,
        int leftClosed,
        int rightOpened,
        int rightClosed,
        decimal expected
    )
    {
        var adjusters = ClickSolverTests.Pair(200m, 300m, 0.01m) with
        {
            LeastStep = Mm(0.005m),
            MostStep = Mm(0.02m),
        };
        var gap = new MeasuredValue(Mm(0.05m), StandardUncertainty.From(Mm(0m)));
        var leftEnd = new LeverPlace(LandingPlace.LeftEnd, Mm(0m), gap, gap, adjusters);

        Assert.Equal(
            expected,
            leftEnd.LeastMoved(new(leftOpened, leftClosed), new(rightOpened, rightClosed))
        );
    }
}
