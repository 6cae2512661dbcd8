namespace ServiceRules.Reporting.Layout;

/// <summary>Page <paramref name="Number"/> of <paramref name="Count"/>.</summary>
public readonly record struct PageNumber(int Number, int Count);
