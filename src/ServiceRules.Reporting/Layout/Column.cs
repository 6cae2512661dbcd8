namespace ServiceRules.Reporting.Layout;

/// <summary>One block of a <see cref="Row"/>; centred in height when asked and when the row is not cut.</summary>
public sealed record Column(ColumnWidth Width, Block Content, bool Centred = false);
