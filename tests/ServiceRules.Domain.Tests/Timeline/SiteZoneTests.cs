using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

public sealed class SiteZoneTests
{
    // Summer time in the United Kingdom: 01:00 UTC, last Sunday of March to last Sunday of October
    // (Summer Time Act 1972 as amended by S.I. 2002 No. 262).
    private static readonly SiteZone London = Zone(
        0,
        ("2026-03-29T01:00:00Z", 60),
        ("2026-10-25T01:00:00Z", 0),
        ("2027-03-28T01:00:00Z", 60)
    );

    [Theory]
    [InlineData("2026-01-15T12:00:00", "2026-01-15T12:00:00Z")]
    [InlineData("2026-03-29T00:59:59.9999999", "2026-03-29T00:59:59.9999999Z")]
    [InlineData("2026-03-29T02:00:00", "2026-03-29T01:00:00Z")]
    [InlineData("2026-07-01T12:00:00.5", "2026-07-01T11:00:00.5Z")]
    [InlineData("2026-10-25T00:59:59", "2026-10-24T23:59:59Z")]
    [InlineData("2026-10-25T02:00:00", "2026-10-25T02:00:00Z")]
    [InlineData("2030-01-01T00:00:00", "2029-12-31T23:00:00Z")]
    public void InstantOf_TimeShownOnce_IsUnique(string local, string moment) =>
        Assert.Equal(
            moment,
            Assert.IsType<ResolvedTime.Unique>(London.InstantOf(Local(local))).Moment.ToString()
        );

    [Theory]
    [InlineData("2026-06-30T22:59:59Z", "2026-06-30")]
    [InlineData("2026-06-30T23:00:00Z", "2026-07-01")]
    [InlineData("2026-06-30T23:59:60Z", "2026-07-01")]
    [InlineData("2026-12-31T23:59:59Z", "2026-12-31")]
    [InlineData("2026-07-01T00:30:00+02:00", "2026-06-30")]
    [InlineData("2026-03-28T23:59:59", "2026-03-28")]
    [InlineData("2026-03-29T01:30:00", "2026-03-29")]
    public void DayOf_Time_IsTheDayOnTheWallOfTheSite(string time, string day) =>
        Assert.Equal(
            day,
            London
                .DayOf(RecordedTime.Parse(time).OrThrow())
                .ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)
        );

    [Theory]
    [InlineData("2026-10-25T01:00:00", "2026-10-25T00:00:00Z", "2026-10-25T01:00:00Z")]
    [InlineData(
        "2026-10-25T01:59:59.9999999",
        "2026-10-25T00:59:59.9999999Z",
        "2026-10-25T01:59:59.9999999Z"
    )]
    public void InstantOf_TimeShownTwice_IsAmbiguous(string local, string earliest, string latest)
    {
        var resolved = Assert.IsType<ResolvedTime.Ambiguous>(London.InstantOf(Local(local)));

        Assert.Equal(earliest, resolved.Earliest.ToString());
        Assert.Equal(latest, resolved.Latest.ToString());
    }

    [Theory]
    [InlineData("2026-03-29T01:00:00")]
    [InlineData("2026-03-29T01:59:59.9999999")]
    [InlineData("2027-03-28T01:30:00")]
    [InlineData("2026-03-29T12:00:60")]
    public void InstantOf_TimeNeverShown_IsNonexistent(string local) =>
        Assert.IsType<ResolvedTime.Nonexistent>(London.InstantOf(Local(local)));

    [Fact]
    public void InstantOf_LocalLeapSecond_FindsItWhereUtcHasIt()
    {
        SiteZone kathmandu = Zone(345);

        var resolved = Assert.IsType<ResolvedTime.Unique>(
            kathmandu.InstantOf(Local("2017-01-01T05:44:60.25"))
        );

        Assert.Equal("2016-12-31T23:59:60.25Z", resolved.Moment.ToString());
        Assert.IsType<ResolvedTime.Nonexistent>(kathmandu.InstantOf(Local("2016-12-31T23:59:60")));
    }

    // Samoa had no 30 December 2011: at its start clocks went from 10 hours behind UTC to 14 ahead.
    [Fact]
    public void InstantOf_DayLeftOutOfTheCalendar_IsNonexistent()
    {
        SiteZone apia = Zone(-600, ("2011-12-30T10:00:00Z", 840));

        Assert.IsType<ResolvedTime.Nonexistent>(apia.InstantOf(Local("2011-12-30T00:00:00")));
        Assert.IsType<ResolvedTime.Nonexistent>(apia.InstantOf(Local("2011-12-30T23:59:59")));
        Assert.Equal(
            "2011-12-30T10:00:00Z",
            Assert.IsType<ResolvedTime.Unique>(apia.InstantOf(Local("2011-12-31T00:00:00"))).Moment.ToString()
        );
    }

    [Fact]
    public void InstantOf_ClocksMovedTwiceWithinHours_FindsThePeriodThatHoldsIt()
    {
        SiteZone zone = Zone(-600, ("2026-01-01T20:00:00Z", -660), ("2026-01-01T21:00:00Z", -600));

        Assert.Equal(
            "2026-01-01T22:00:00Z",
            Assert.IsType<ResolvedTime.Unique>(zone.InstantOf(Local("2026-01-01T12:00:00"))).Moment.ToString()
        );
    }

    [Theory]
    [InlineData("2026-01-15T12:00:00Z", "2026-01-15T12:00:00+00:00")]
    [InlineData("2026-07-01T11:00:00.50Z", "2026-07-01T12:00:00.5+01:00")]
    [InlineData("2026-03-29T01:00:00Z", "2026-03-29T02:00:00+01:00")]
    public void Print_Moment_ShowsTheWallClockWithItsOffset(string moment, string shown) =>
        Assert.Equal(shown, London.Print(MomentOf(moment)));

    [Fact]
    public void Print_OffsetBehindUtc_HasItsSignOnce() =>
        Assert.Equal("2026-01-15T08:30:00-03:30", Zone(-210).Print(MomentOf("2026-01-15T12:00:00Z")));

    [Fact]
    public void Of_ContradictoryDescription_IsRefused()
    {
        ZoneTransition spring = new(MomentOf("2026-03-29T01:00:00Z"), 60);
        ZoneTransition autumn = new(MomentOf("2026-10-25T01:00:00Z"), 0);

        Assert.Equal("is not a name of a zone", Problem("", "1", 0));
        Assert.Equal("is not a name of a zone", Problem(new string('z', 65), "1", 0));
        Assert.Equal("is not a version of zone data", Problem("Site", "", 0));
        Assert.Equal("is an offset of a day or more", Problem("Site", "1", 1440));
        Assert.Equal(
            "is an offset of a day or more",
            Problem("Site", "1", 0, spring with { OffsetMinutes = -1440 })
        );
        Assert.Equal("does not follow the transition before it", Problem("Site", "1", 0, autumn, spring));
        Assert.Equal("does not follow the transition before it", Problem("Site", "1", 0, spring, spring));
        Assert.Equal(
            "are too many transitions",
            Problem("Site", "1", 0, Enumerable.Repeat(spring, 1001).ToArray())
        );
    }

    [Fact]
    public void Equals_SameDescription_IsOneZone()
    {
        SiteZone one = Zone(0, ("2026-03-29T01:00:00Z", 60));
        SiteZone same = Zone(0, ("2026-03-29T01:00:00Z", 60));
        SiteZone other = Zone(0, ("2026-03-29T02:00:00Z", 60));

        Assert.Equal(one, same);
        Assert.Equal(one.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(one, other);
    }

    private static string Problem(string name, string version, int first, params ZoneTransition[] moves)
    {
        Assert.False(SiteZone.Of(name, version, first, [.. moves]).TryGet(out _, out ParseFailure? failure));
        return failure.Problem;
    }

    private static SiteZone Zone(int first, params (string At, int Offset)[] moves) =>
        SiteZone
            .Of(
                "Site",
                "test data",
                first,
                [.. moves.Select(move => new ZoneTransition(MomentOf(move.At), move.Offset))]
            )
            .OrThrow();

    private static Moment MomentOf(string text) =>
        Assert.IsType<RecordedTime.Instant>(RecordedTime.Parse(text).OrThrow()).Moment;

    private static RecordedTime.LocalTime Local(string text) =>
        Assert.IsType<RecordedTime.LocalTime>(RecordedTime.Parse(text).OrThrow());
}
