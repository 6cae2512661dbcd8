using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Formats.Registers;

/// <summary>What a site says of itself: `site.json`.</summary>
public sealed record SiteFile(string Name, ImmutableArray<string> Jurisdictions, SiteZone Zone)
{
    /// <summary>How its locks and tags look.</summary>
    public string? LockStyle { get; init; }

    /// <summary>Its written way to take off the device of somebody who is not there.</summary>
    public RemovalException? RemovalException { get; init; }
}
