using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Statistics;

public sealed class MedianTests
{
    [Fact]
    public void Of_AnOddNumber_IsTheMiddleOne() => Assert.Equal(Mm(2m), Median.Of([Mm(9m), Mm(1m), Mm(2m)]));

    [Fact]
    public void Of_AnEvenNumber_IsTheMeanOfTheMiddleTwo()
    {
        Assert.Equal(Mm(3m), Median.Of([Mm(4m), Mm(1m), Mm(2m), Mm(9m)]));
        Assert.Equal(
            WearRate.FromMillimetresPerHour(0.15m),
            Median.Of([WearRate.FromMillimetresPerHour(0.2m), WearRate.FromMillimetresPerHour(0.1m)])
        );
    }

    [Fact]
    public void Of_Nothing_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Median.Of(Array.Empty<Length>()));
}
