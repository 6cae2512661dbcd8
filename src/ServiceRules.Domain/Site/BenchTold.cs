using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A line of the bench log of another record, as far as it tells where hands were.</summary>
/// <param name="Unit">At which unit.</param>
/// <param name="Act">What was done there.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
public sealed record BenchTold(Id<UnitWork> Unit, BenchAct Act, RecordedTime At, Id<Participant> By);
