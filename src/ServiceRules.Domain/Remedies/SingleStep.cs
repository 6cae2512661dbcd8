using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>One turn of one adjuster by one step.</summary>
/// <param name="Side">Left or right.</param>
/// <param name="Opens">True when the step opens (or raises).</param>
public sealed record SingleStep(Side Side, bool Opens);
