namespace ServiceRules.Domain.Statistics;

/// <summary>Where a regression line reaches a value.</summary>
/// <param name="Best">Where the line itself reaches it.</param>
/// <param name="From">The least x at which its band reaches it; none when the slope is not shown.</param>
/// <param name="Until">The greatest x at which its band reaches it; none when the slope is not shown.</param>
internal sealed record LineReach(decimal Best, decimal? From, decimal? Until);
