namespace ServiceRules.Application.Waiving;

/// <summary>Changes whenever another set of waivers counts at a site.</summary>
/// <param name="Last">The number of the last one; 0 before the first.</param>
/// <param name="Counting">How many are neither withdrawn nor erased.</param>
public readonly record struct WaiverMark(long Last, long Counting);
