using System.Globalization;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

public sealed class UtcTimeTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 0, 45, 10, 999, TimeSpan.FromHours(1));

    [Fact]
    public void Print_AnyOffset_IsTheDayAndTimeInUtc()
    {
        Assert.Equal("2026-03-01 23:45:10 UTC", UtcTime.Print(At));
        Assert.Equal("2026-03-01T23:45:10Z", UtcTime.Stamp(At));
    }

    [Fact]
    public void Print_WhereTimesAreWrittenOtherwise_IsTheSame()
    {
        var before = CultureInfo.CurrentCulture;
        var other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        other.DateTimeFormat.TimeSeparator = ".";
        CultureInfo.CurrentCulture = other;
        try
        {
            Assert.Equal("2026-03-01 23:45:10 UTC", UtcTime.Print(At));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
