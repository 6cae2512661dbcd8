namespace ServiceRules.Host;

/// <summary>Where the certificate lies that the service speaks TLS with.</summary>
/// <param name="Certificate">PEM: the certificate, and after it those that lead to its root.</param>
/// <param name="Key">PEM: its private key, not encrypted, readable by the service alone.</param>
public sealed record TlsFiles(string Certificate, string Key);
