using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Records;

/// <summary>A second person lets something unproven go out, with a reason.</summary>
/// <param name="By">Never the person who did the work.</param>
/// <param name="At">When.</param>
/// <param name="Rule">Which rule's unproven finding is released; its identity text.</param>
/// <param name="Unit">On which unit; absent: wherever the rule is unproven in this job.</param>
/// <param name="Reason">Why it may go out all the same.</param>
public sealed record SecondRelease(
    Id<Participant> By,
    RecordedTime At,
    string Rule,
    Id<UnitWork>? Unit,
    string Reason
);
