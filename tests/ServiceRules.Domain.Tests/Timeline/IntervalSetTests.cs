using FsCheck.Xunit;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

/// <summary>Each operation against its meaning at single places: membership, the only thing that matters.</summary>
public sealed class IntervalSetTests
{
    [Fact]
    public void Contains_FirstAndLastPlace_HoldsTheFirstOnly()
    {
        var held = Held((2, 5));

        Assert.False(held.Contains(At(1)));
        Assert.True(held.Contains(At(2)));
        Assert.True(held.Contains(At(4)));
        Assert.False(held.Contains(At(5)));
    }

    [Fact]
    public void Contains_SameInstantLaterEntry_StandsAfterTheEnd()
    {
        var held = IntervalSet.Of([new(At(10, 3), At(20, 7))]);

        Assert.False(held.Contains(At(10, 2)));
        Assert.True(held.Contains(At(20, 6)));
        Assert.False(held.Contains(At(20, 7)));
    }

    [Fact]
    public void Of_TouchingStretches_AreOne() => Assert.Equal(Held((1, 6)), Held((3, 6), (1, 3)));

    [Fact]
    public void Without_MiddlePart_LeavesBothSides() =>
        Assert.Equal(Held((1, 3), (5, null)), Held((1, null)).Without(Held((3, 5))));

    [Fact]
    public void Latched_BegunTwiceEndedTwice_StandsFromTheFirstBeginToTheFirstEnd() =>
        Assert.Equal(
            Held((2, 6), (9, null)),
            IntervalSet.Latched([At(9), At(2), At(4)], [At(1), At(6), At(7)])
        );

    [Property(MaxTest = PropertyCases.Each)]
    public bool Operations_AnySets_AgreeWithMembership(
        (byte From, byte Length)[] one,
        (byte From, byte Length)[] other
    )
    {
        var left = Drawn(one);
        var right = Drawn(other);
        return Enumerable
            .Range(-1, 48)
            .All(tick =>
                left.Or(right).Contains(At(tick)) == (left.Contains(At(tick)) || right.Contains(At(tick)))
                && left.And(right).Contains(At(tick)) == (left.Contains(At(tick)) && right.Contains(At(tick)))
                && left.Without(right).Contains(At(tick))
                    == (left.Contains(At(tick)) && !right.Contains(At(tick)))
                && left.Complement().Contains(At(tick)) == !left.Contains(At(tick))
            );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public bool Complement_Twice_IsTheSameSet((byte From, byte Length)[] any) =>
        Drawn(any).Complement().Complement().Equals(Drawn(any));

    private static TimelinePlace At(int second, int index = 0) =>
        new(Moment.From(DateTimeOffset.UnixEpoch.AddSeconds(second)), index);

    private static IntervalSet Held(params (int From, int? Until)[] stretches) =>
        IntervalSet.Of(
            stretches.Select(stretch => new TimelineInterval(
                At(stretch.From),
                stretch.Until is { } until ? At(until) : null
            ))
        );

    // Lengths of 0 are empty, and of 9 have no end.
    private static IntervalSet Drawn((byte From, byte Length)[] stretches) =>
        Held([
            .. stretches.Select(stretch =>
                (
                    stretch.From % 40,
                    stretch.Length % 10 == 9 ? (int?)null : (stretch.From % 40) + (stretch.Length % 10)
                )
            ),
        ]);
}
