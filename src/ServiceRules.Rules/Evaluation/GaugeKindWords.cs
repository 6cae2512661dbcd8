using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>Kinds of instrument as people say them.</summary>
internal static class GaugeKindWords
{
    public static string Of(InstrumentKind kind) =>
        kind switch
        {
            InstrumentKind.FeelerGauge => "feeler gauge",
            InstrumentKind.HeightGauge => "height gauge",
            InstrumentKind.Calliper => "calliper",
            InstrumentKind.Micrometer => "micrometer",
            InstrumentKind.DiameterTape => "diameter tape",
            InstrumentKind.DialGauge => "dial gauge",
            InstrumentKind.DepthGauge => "depth gauge",
            InstrumentKind.AngleGauge => "angle gauge",
            InstrumentKind.BenchPlate => "bench plate",
            InstrumentKind.PaperStrip => "paper strip",
            InstrumentKind.FixedSizePiece => "piece of fixed size",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of instrument"),
        };

    /// <summary>With its article: <c>a dial gauge</c>, <c>an angle gauge</c>.</summary>
    public static string One(InstrumentKind kind) =>
        (kind is InstrumentKind.AngleGauge ? "an " : "a ") + Of(kind);

    /// <summary>Any of several.</summary>
    public static string AnyOf(ImmutableArray<InstrumentKind> kinds) =>
        kinds.Length == 1
            ? One(kinds[0])
            : $"{string.Join(", ", kinds[..^1].Select(One))} or {One(kinds[^1])}";
}
