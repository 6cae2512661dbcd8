namespace ServiceRules.Reporting.Timestamping;

/// <summary>An authority that confirms, by its own clock, that a signature exists (RFC 3161).</summary>
public interface ITimestampAuthority
{
    /// <summary>Its host as reports name it; plain letters, digits, dots, hyphens, and a port.</summary>
    string Host { get; }

    /// <summary>A token over SHA-256 of the signature value.</summary>
    /// <exception cref="TimestampException">There is none; the message says why.</exception>
    Task<byte[]> StampAsync(ReadOnlyMemory<byte> signature);
}
