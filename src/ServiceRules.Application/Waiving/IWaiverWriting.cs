using ServiceRules.Evidence;

namespace ServiceRules.Application.Waiving;

/// <summary>Waivers, in the transaction of a filing.</summary>
public interface IWaiverWriting : IWaiverReading
{
    /// <summary>Keeps one whose content is kept by the log.</summary>
    /// <returns>Its number.</returns>
    long Keep(string site, string subject, ContentHash content, DateTimeOffset at, long entry);

    /// <summary>Ends one for good.</summary>
    void Withdraw(long number, DateTimeOffset at, long entry);
}
