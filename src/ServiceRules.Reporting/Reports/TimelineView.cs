using System.Collections.Immutable;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Reporting.Reports;

/// <summary>The events of a job in judged order, each with its number in the report.</summary>
internal sealed class TimelineView(JobView job)
{
    public ImmutableArray<NumberedEvent> Events { get; } =
        NumberedEvent.Of(JudgedOrder.Of(job.Record.Timeline, job.Assessed.Context.Zone));
}
