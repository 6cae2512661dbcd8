using System.Globalization;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>The clock on the wall of the workshop while a job goes on.</summary>
internal sealed class JobClock
{
    private readonly SiteZone zone;

    public JobClock(SiteZone zone, Moment start)
    {
        this.zone = zone;
        Moment = start;
    }

    public Moment Moment { get; private set; }

    public RecordedTime Now => Said(Moment);

    /// <summary>The moment when the clock shows a time of a day; the first of two where clocks were put back.</summary>
    public static Moment MomentOf(SiteZone zone, DateOnly day, TimeOnly time)
    {
        var text = day.ToDateTime(time).ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
        return RecordedTime.Parse(text).OrThrow() is RecordedTime.LocalTime local
            ? zone.InstantOf(local) switch
            {
                ResolvedTime.Unique unique => unique.Moment,
                ResolvedTime.Ambiguous ambiguous => ambiguous.Earliest,
                _ => throw new ArgumentException($"no clock of the site showed {text}", nameof(time)),
            }
            : throw new ArgumentException($"{text} carries an offset", nameof(time));
    }

    public void Pass(int seconds) => Moment += TimeSpan.FromSeconds(seconds);

    public RecordedTime Said(Moment moment) => RecordedTime.Parse(zone.Print(moment)).OrThrow();
}
