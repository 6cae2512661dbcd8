using System.Collections.Immutable;

namespace ServiceRules.Application.Waiving;

/// <summary>Waivers that were entered beside the registers. Safe to share between threads.</summary>
public interface IWaiverReading
{
    /// <summary>Whether others count than before.</summary>
    WaiverMark Mark(string site);

    /// <summary>Those of a site in the order in which they were entered, withdrawn ones too.</summary>
    ImmutableArray<KeptWaiver> Of(string site);

    /// <summary>The rows of every site, as they stand.</summary>
    ImmutableArray<WaiverRow> Rows();
}
