using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class ContactReleaseTests
{
    [Fact]
    public void For_SmallReelInHalfThousandthSteps_OpensTwoMoreAfterItFrees()
    {
        // Just free: ]0, 0.0127]; two more: ]0.0254, 0.0381], so the 0.0254 feeler passes and the next does not.
        var release = ContactRelease.For(Mm(0.0127m), ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)));

        Assert.Equal((2, true), (release.ThenOpen, release.IsInsideZone));
        Assert.Equal("]0.0254 mm, 0.0381 mm]", release.Predicted.ToString());
    }

    [Fact]
    public void For_ZoneNarrowerThanAStep_SaysItMayNotLandInside()
    {
        var release = ContactRelease.For(Mm(0.0127m), ToleranceZone.Between(Mm(0.0254m), Mm(0.0380m)));

        Assert.Equal((2, false), (release.ThenOpen, release.IsInsideZone));
    }

    [Fact]
    public void For_UpperLimitOnly_StopsAsSoonAsItFrees() =>
        Assert.Equal(0, ContactRelease.For(Mm(0.0127m), ToleranceZone.AtMost(Mm(0.05m))).ThenOpen);

    [Fact]
    public void For_ALimitOutOfReach_StopsAtTheMostSteps() =>
        Assert.Equal(
            (AdjusterPair.MostSteps, false),
            (
                ContactRelease.For(Mm(0.001m), ToleranceZone.AtLeast(Mm(1m))).ThenOpen,
                ContactRelease.For(Mm(0.001m), ToleranceZone.AtLeast(Mm(1m))).IsInsideZone
            )
        );

    [Fact]
    public void For_NoStep_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            ContactRelease.For(Mm(0m), ToleranceZone.AtMost(Mm(1m)))
        );

    [Property(MaxTest = PropertyCases.Each)]
    public void For_AnyZone_IsTheFewestThatLandsEveryStartInside(byte lower, byte width)
    {
        var zone = ToleranceZone.Between(Mm(lower * 0.001m), Mm((lower + width) * 0.001m));
        var step = 0.0127m;

        var release = ContactRelease.For(Mm(step), zone);

        // Starts just free, in ]0, step], tried at a hundredth of a step.
        bool Lands(int count) =>
            Enumerable.Range(0, 101).All(i => zone.Contains(Mm((step * i / 100) + (step * count))));
        var first = Enumerable.Range(0, 60).Where(Lands).Cast<int?>().FirstOrDefault();
        Assert.Equal(first is not null, release.IsInsideZone);
        if (first is { } fewest)
        {
            Assert.Equal(fewest, release.ThenOpen);
        }
    }
}
