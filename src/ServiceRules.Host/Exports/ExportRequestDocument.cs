using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Exports;

/// <summary>A body that asks for an export, for the description of the interface.</summary>
[Published("export-request")]
internal sealed class ExportRequestDocument;
