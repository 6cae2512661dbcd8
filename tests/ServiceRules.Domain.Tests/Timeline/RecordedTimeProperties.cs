using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

/// <summary>Held against the calendar and the zone arithmetic of the platform, which Domain does not use.</summary>
[Properties(Arbitrary = [typeof(Clocks)])]
public sealed class RecordedTimeProperties
{
    [Property]
    public void Parse_AnyClockWithOffset_IsTheMomentThePlatformSays(DateTimeOffset time)
    {
        string text = time.ToString("yyyy-MM-ddTHH:mm:ss.fffffffzzz", CultureInfo.InvariantCulture);

        var read = Assert.IsType<RecordedTime.Instant>(RecordedTime.Parse(text).OrThrow());

        Assert.Equal(time, read.Moment.Utc);
        Assert.Equal((int)time.Offset.TotalMinutes, read.LocalOffsetMinutes ?? 0);
        Assert.Equal(Moment.From(time), read.Moment);
    }

    [Property]
    public void Parse_PrintOfAMoment_IsThatMoment(DateTimeOffset time)
    {
        Moment moment = Moment.From(time);

        var read = Assert.IsType<RecordedTime.Instant>(RecordedTime.Parse(moment.ToString()).OrThrow());

        Assert.Equal(moment, read.Moment);
    }

    [Property]
    public void CompareTo_TwoClocks_IsTheOrderThePlatformSays(DateTimeOffset left, DateTimeOffset right)
    {
        Assert.Equal(left.CompareTo(right), Moment.From(left).CompareTo(Moment.From(right)));
        Assert.Equal(left - right, Moment.From(left) - Moment.From(right));
    }

    [Property]
    public void Parse_AnyText_AnswersWithoutThrowing(string? text) =>
        Assert.NotNull(RecordedTime.Parse(text ?? string.Empty).ToString());

    [Property(MaxTest = PropertyCases.Each)]
    public void InstantOf_AnyMinuteOfAYear_IsWhatThePlatformSays(DateTimeOffset time, int hourMoved)
    {
        TimeZoneInfo rule = Clocks.SummerTime(Math.Abs(hourMoved % 4) + 1);
        SiteZone zone = Clocks.Frozen(rule);
        DateTime wall = Clocks.NearATransition(time);
        var local = Assert.IsType<RecordedTime.LocalTime>(
            RecordedTime.Parse(wall.ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture)).OrThrow()
        );

        ResolvedTime resolved = zone.InstantOf(local);

        if (rule.IsInvalidTime(wall))
        {
            Assert.IsType<ResolvedTime.Nonexistent>(resolved);
        }
        else if (rule.IsAmbiguousTime(wall))
        {
            var two = Assert.IsType<ResolvedTime.Ambiguous>(resolved);
            DateTimeOffset[] moments =
            [
                .. rule.GetAmbiguousTimeOffsets(wall)
                    .Select(offset => new DateTimeOffset(wall, offset))
                    .Order(),
            ];
            Assert.Equal((moments[0], moments[1]), (two.Earliest.Utc, two.Latest.Utc));
        }
        else
        {
            var one = Assert.IsType<ResolvedTime.Unique>(resolved);
            Assert.Equal(new DateTimeOffset(wall, rule.GetUtcOffset(wall)), one.Moment.Utc);
            Assert.Equal(
                one.Moment,
                Assert
                    .IsType<RecordedTime.Instant>(RecordedTime.Parse(zone.Print(one.Moment)).OrThrow())
                    .Moment
            );
        }
    }
}
