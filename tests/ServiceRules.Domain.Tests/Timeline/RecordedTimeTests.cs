using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

public sealed class RecordedTimeTests
{
    [Theory]
    [InlineData("2026-03-01T13:00:00+01:00", 60)]
    [InlineData("2026-03-01T04:30:00-07:30", -450)]
    [InlineData("2026-03-01T12:00:00+00:00", 0)]
    [InlineData("2026-03-01T12:00:00Z", null)]
    [InlineData("2026-03-01t12:00:00z", null)]
    [InlineData("2026-03-01T12:00:00-00:00", null)]
    public void Parse_SameMomentWrittenWithAnyOffset_IsOneMomentAndKeepsItsText(string text, int? offset)
    {
        RecordedTime.Instant time = Instant(text);

        Assert.Equal("2026-03-01T12:00:00Z", time.Moment.ToString());
        Assert.Equal(offset, time.LocalOffsetMinutes);
        Assert.Equal(text, time.Text);
        Assert.Equal(text, time.ToString());
    }

    [Fact]
    public void Parse_WithoutOffset_IsAKindOfItsOwn()
    {
        RecordedTime time = RecordedTime.Parse("2026-03-01T13:00:00.250").OrThrow();

        Assert.IsType<RecordedTime.LocalTime>(time);
        Assert.Equal("2026-03-01T13:00:00.250", time.Text);
    }

    [Theory]
    [InlineData("", "is not a date, T and a time with seconds")]
    [InlineData("2026-03-01", "is not a date, T and a time with seconds")]
    [InlineData("2026-03-01 12:00:00Z", "is not a date, T and a time with seconds")]
    [InlineData("2026-03-01T12:00Z", "is not a date, T and a time with seconds")]
    [InlineData("2026-03-01T12:00:00Z\n", "is not a date, T and a time with seconds")]
    [InlineData("2026-03-01T12:00:00.Z", "is not a date, T and a time with seconds")]
    [InlineData("1989-12-31T23:59:59Z", "lies outside the years 1990 to 2200")]
    [InlineData("2201-01-01T00:00:00Z", "lies outside the years 1990 to 2200")]
    [InlineData("2026-02-29T12:00:00Z", "has a date that is in no calendar")]
    [InlineData("2026-13-01T12:00:00Z", "has a date that is in no calendar")]
    [InlineData("2026-03-01T24:00:00Z", "has a time of day that no clock shows")]
    [InlineData("2026-03-01T12:00:61Z", "has a time of day that no clock shows")]
    [InlineData("2026-03-01T12:00:00.12345678Z", "has more than 7 decimals of a second")]
    [InlineData(
        "2026-03-01T12:00:00+24:00",
        "has an offset of a day or more, or of more than 59 minutes beside the hours"
    )]
    [InlineData("2026-03-01T23:59:60Z", "has second 60 elsewhere than at the end of a month in UTC")]
    [InlineData("2026-06-30T23:59:60+01:00", "has second 60 elsewhere than at the end of a month in UTC")]
    public void Parse_UnreadableText_SaysWhy(string text, string problem)
    {
        Assert.False(RecordedTime.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
        Assert.Equal(RecordedTime.AcceptedForms, failure.Accepted);
    }

    [Theory]
    [InlineData("1990-01-01T00:00:00+14:00", "1989-12-31T10:00:00Z")]
    [InlineData("2200-12-31T23:59:59.9999999-12:00", "2201-01-01T11:59:59.9999999Z")]
    public void Parse_EdgesOfTheYears_AreReadByTheirOwnCalendar(string text, string moment) =>
        Assert.Equal(moment, Instant(text).Moment.ToString());

    [Fact]
    public void CompareTo_AroundALeapSecond_KeepsItsPlace()
    {
        // 2016-12-31 ended in a leap second (RFC 3339, appendix D, continued).
        string[] inOrder =
        [
            "2016-12-31T23:59:59Z",
            "2016-12-31T23:59:59.9999999Z",
            "2016-12-31T23:59:60Z",
            "2017-01-01T00:59:60.5+01:00",
            "2017-01-01T00:00:00Z",
            "2017-01-01T00:00:00.0000001Z",
        ];
        Moment[] moments = [.. inOrder.Select(text => Instant(text).Moment)];

        Assert.Equal(moments, moments.Reverse().Order());
        Assert.All(moments.Zip(moments.Skip(1)), pair => Assert.True(pair.First < pair.Second));
        Assert.Equal([false, false, true, true, false, false], moments.Select(moment => moment.IsLeapSecond));
        Assert.Equal("2016-12-31T23:59:60.5Z", moments[3].ToString());
    }

    [Fact]
    public void Subtraction_AcrossALeapSecond_CountsAsClocksDo()
    {
        Moment before = Instant("2016-12-31T23:59:00Z").Moment;
        Moment within = Instant("2016-12-31T23:59:60.75Z").Moment;
        Moment after = Instant("2017-01-01T00:01:00Z").Moment;

        Assert.Equal(TimeSpan.FromMinutes(2), after - before);
        Assert.Equal(TimeSpan.FromMinutes(1), after - within);
        Assert.Equal(TimeSpan.FromMinutes(1), within - before);
        Assert.Equal(after, before + TimeSpan.FromMinutes(2));
    }

    [Fact]
    public void Equals_SameMomentWrittenOtherwise_IsAnotherRecordOfTheSameMoment()
    {
        RecordedTime.Instant zulu = Instant("2026-03-01T12:00:00Z");
        RecordedTime.Instant local = Instant("2026-03-01T13:00:00+01:00");

        Assert.NotEqual(zulu, local);
        Assert.Equal(zulu.Moment, local.Moment);
        Assert.Equal(zulu.Moment.GetHashCode(), local.Moment.GetHashCode());
    }

    [Fact]
    public void From_TimeOfThePlatform_IsTheSameMoment() =>
        Assert.Equal(
            Instant("2026-03-01T13:00:00.5+01:00").Moment,
            Moment.From(new DateTimeOffset(2026, 3, 1, 12, 0, 0, 500, TimeSpan.Zero))
        );

    private static RecordedTime.Instant Instant(string text) =>
        Assert.IsType<RecordedTime.Instant>(RecordedTime.Parse(text).OrThrow());
}
