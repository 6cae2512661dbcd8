using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>A setting asked for on the job card.</summary>
public sealed record RequestedSetting(MeasuredQuantity Quantity, PrintedLength Value, Id<Participant>? By);
