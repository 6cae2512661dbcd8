using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Exports;

/// <summary>A record and its assessment in an export; what is no longer kept is left out.</summary>
internal sealed record DocumentsLine(
    string Id,
    long Entry,
    EmbeddedRecord? Record,
    EmbeddedAssessment? Assessment
);
