using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

/// <summary>Clock readings within the years a record may have, and zones that move their clocks twice a year.</summary>
public static class Clocks
{
    private const int Year = 2026;
    private static readonly DateTime Spring = new(Year, 3, 29, 2, 0, 0);
    private static readonly DateTime Autumn = new(Year, 10, 25, 3, 0, 0);

    public static Arbitrary<DateTimeOffset> Readings() =>
        (
            from day in Gen.Choose(0, 76_000)
            from second in Gen.Choose(0, 86_399)
            from tick in Gen.Choose(0, 9_999_999)
            from offset in Gen.Choose(-14 * 60, 14 * 60)
            select new DateTimeOffset(
                new DateTime(1991, 1, 1).AddDays(day).AddSeconds(second).AddTicks(tick),
                TimeSpan.FromMinutes(offset)
            )
        ).ToArbitrary();

    /// <summary>A whole minute within a day of one of the two transitions, chosen by the reading.</summary>
    public static DateTime NearATransition(DateTimeOffset reading)
    {
        DateTime centre = reading.Day % 2 == 0 ? Spring : Autumn;
        return centre.AddMinutes((reading.Ticks / TimeSpan.TicksPerSecond % 600) - 300);
    }

    public static TimeZoneInfo SummerTime(int hoursMoved) =>
        TimeZoneInfo.CreateCustomTimeZone(
            "made up",
            TimeSpan.FromHours(-3),
            "made up",
            "made up",
            "made up",
            [
                TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(
                    new DateTime(Year, 1, 1),
                    new DateTime(Year, 12, 31),
                    TimeSpan.FromHours(hoursMoved),
                    TimeZoneInfo.TransitionTime.CreateFixedDateRule(new DateTime(1, 1, 1, 2, 0, 0), 3, 29),
                    TimeZoneInfo.TransitionTime.CreateFixedDateRule(new DateTime(1, 1, 1, 3, 0, 0), 10, 25)
                ),
            ]
        );

    /// <summary>The same zone written down by hand: local 02:00 and 03:00 of the rule, in UTC.</summary>
    public static SiteZone Frozen(TimeZoneInfo rule)
    {
        int moved = (int)rule.GetAdjustmentRules()[0].DaylightDelta.TotalMinutes;
        ImmutableArray<ZoneTransition> moves =
        [
            new(Moment.From(new DateTimeOffset(Spring, TimeSpan.FromHours(-3))), -180 + moved),
            new(Moment.From(new DateTimeOffset(Autumn, TimeSpan.FromMinutes(-180 + moved))), -180),
        ];
        return SiteZone.Of("made up", "test data", -180, moves).OrThrow();
    }
}
