using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Formats.Registers;

/// <summary>What a site says of itself: `site.json`.</summary>
public sealed record SiteFile(string Name, ImmutableArray<string> Jurisdictions, SiteZone Zone);
