using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Whose hands may not go in on an open job as the machine now stands, in words.</summary>
public static class HandsNotYet
{
    /// <summary>Somebody whose hands were in, are out, and may not go in again.</summary>
    public static string Told(BackIn one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return $"{one.Person} may not put hands in again; the record does not show {string.Join("; ", one.Lacks)}: make safe again, the whole of it, and enter it first";
    }

    /// <summary>Somebody whose hands were not in yet, and who may not begin.</summary>
    public static string Told(StillOut one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return one.Barred is { } barred
            ? $"{one.Person} may not begin: {one.Person} {barred}; somebody authorised must do this work"
            : $"{one.Person} may not begin; the record does not show {string.Join("; ", one.Lacks)}";
    }

    /// <summary>All of them once hands were in; before that, what is missing before hands go in says it. Empty on a finished job.</summary>
    public static IEnumerable<string> Of(JobFrame job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return TimelineReading.Of(job).Works.IsEmpty
            ? []
            : BackIn
                .Of(job)
                .Select(Told)
                .Concat(
                    StillOut.Of(job).Where(one => one.Barred is not null || !one.Lacks.IsEmpty).Select(Told)
                );
    }
}
