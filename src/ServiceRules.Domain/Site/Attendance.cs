using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>When a person was on the site, by the site's own attendance records.</summary>
/// <param name="Person">Who.</param>
/// <param name="From">When they came.</param>
/// <param name="Until">When they left.</param>
public sealed record Attendance(Id<Participant> Person, RecordedTime From, RecordedTime Until);
