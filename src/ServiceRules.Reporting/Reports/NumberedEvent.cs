using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Reports;

/// <summary>An event with the number by which lanes and list name it.</summary>
internal sealed record NumberedEvent(int Number, TimelineEvent Event);
