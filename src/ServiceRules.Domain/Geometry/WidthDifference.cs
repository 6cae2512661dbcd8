using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>How far one place along the width lies above another.</summary>
/// <param name="Above">Where the larger value is, from the left end; 0 and the width are the ends.</param>
/// <param name="Below">Where the smaller value is.</param>
/// <param name="By">The difference, not below zero, with the uncertainty of this difference.</param>
public sealed record WidthDifference(Length Above, Length Below, MeasuredValue By);
