using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>One broken line: runs from the left, and the height it asks for.</summary>
internal sealed record TextLine(ImmutableArray<TextRun> Runs, double Width, double Height, double Baseline);
