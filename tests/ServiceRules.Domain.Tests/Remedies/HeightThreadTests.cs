using FsCheck.Xunit;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class HeightThreadTests
{
    [Theory]
    // A 1.5 mm pitch acting directly: 0.4 mm is 2.13 eighths, so 2, which gives 0.375 mm.
    [InlineData(1.5, 1, 0.4, 8, 2, 0.375)]
    // Half a part is a tie: the smaller turn.
    [InlineData(1.5, 1, -0.28125, 8, -1, -0.1875)]
    [InlineData(1.5, 1, -0.29, 8, -2, -0.375)]
    // A lever halves it: 1.5 · 0.5 / 4 = 0.1875 per quarter turn.
    [InlineData(1.5, 0.5, 0.19, 4, 1, 0.1875)]
    [InlineData(1.5, 1, 0, 8, 0, 0)]
    public void TurnsFor_AChangeOfHeight_IsTheNearestPartOfATurn(
        decimal pitch,
        decimal ratio,
        decimal change,
        int partsPerTurn,
        int parts,
        decimal predicted
    )
    {
        var turns = new HeightThread(Mm(pitch), ratio).TurnsFor(Mm(change), partsPerTurn);

        Assert.Equal((parts, Mm(predicted)), (turns.Parts, turns.Predicted));
    }

    [Property]
    public void TurnsFor_AnyChange_IsOffByAtMostHalfAPart(short change, byte parts)
    {
        var thread = new HeightThread(Mm(1.25m), 1m);
        var turns = thread.TurnsFor(Mm(change * 0.001m), (parts % 24) + 1);

        var off = Math.Abs(turns.Predicted.Millimetres - (change * 0.001m));
        Assert.True(off <= (1.25m / ((parts % 24) + 1) / 2) + 0.00000000001m);
    }

    [Fact]
    public void TurnsFor_AScrewThatDoesNotAdvance_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new HeightThread(Mm(0m), 1m).TurnsFor(Mm(1m), 8));
}
