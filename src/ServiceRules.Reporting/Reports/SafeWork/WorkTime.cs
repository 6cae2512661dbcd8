using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>How long hands were in, by the times that the record shows.</summary>
/// <param name="Long">The time; up to the last entry where no end is shown.</param>
/// <param name="IsOpen">No end is shown for some of it.</param>
internal readonly record struct WorkTime(TimeSpan Long, bool IsOpen)
{
    public static WorkTime Of(IntervalSet when, SafeWorkView view)
    {
        var last = view.Frame.Events.IsEmpty ? default : view.Frame.Events[^1].Moment;
        var first = view.Frame.Events.IsEmpty ? default : view.Frame.Events[0].Moment;
        var time = TimeSpan.Zero;
        foreach (var one in when.Intervals)
        {
            var from = one.From == TimelinePlace.Beginning ? first : one.From.Moment;
            time += (one.Until?.Moment ?? last) - from;
        }
        return new(time, when.Intervals.Any(one => one.Until is null));
    }

    public override string ToString() =>
        IsOpen ? $"at least {DurationPrint.Of(Long)}" : DurationPrint.Of(Long);
}
