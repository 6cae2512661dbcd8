using System.Collections.ObjectModel;
using System.Security.Cryptography;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Sessions;

/// <summary>
/// The keys that protect sessions and forms, kept in the database for all instances on it, and sealed: whoever reads the
/// database, or a copy of it, does not read them (AES-256 in GCM, each with a nonce of its own).
/// </summary>
internal sealed partial class SealedKeys : IXmlRepository, IDisposable
{
    /// <summary>What the secret is derived for. It never changes: what is sealed could not be opened any more.</summary>
    public const string Use = "servicerules/protection-keys/1";

    private static readonly int NonceBytes = AesGcm.NonceByteSizes.MaxSize;
    private static readonly int TagBytes = AesGcm.TagByteSizes.MaxSize;

    private readonly ISealedKeyStore store;
    private readonly AesGcm cipher;
    private readonly ILogger<SealedKeys> log;

    public SealedKeys(ISealedKeyStore store, byte[] secret, ILogger<SealedKeys> log)
    {
        this.store = store;
        this.log = log;
        cipher = new AesGcm(secret, TagBytes);
    }

    public IReadOnlyCollection<XElement> GetAllElements() =>
        new ReadOnlyCollection<XElement>([.. store.All().Select(Opened).OfType<XElement>()]);

    public void StoreElement(XElement element, string friendlyName)
    {
        ArgumentNullException.ThrowIfNull(element);
        store.Add(new(friendlyName, Sealed(element, friendlyName)));
    }

    public void Dispose() => cipher.Dispose();

    private byte[] Sealed(XElement element, string name)
    {
        var plain = Encoding.UTF8.GetBytes(element.ToString(SaveOptions.DisableFormatting));
        var whole = new byte[NonceBytes + plain.Length + TagBytes];
        var nonce = whole.AsSpan(0, NonceBytes);
        RandomNumberGenerator.Fill(nonce);
        cipher.Encrypt(
            nonce,
            plain,
            whole.AsSpan(NonceBytes, plain.Length),
            whole.AsSpan(NonceBytes + plain.Length),
            Encoding.UTF8.GetBytes(name)
        );
        return whole;
    }

    // One that cannot be opened was sealed beside another log, or changed: it protects nothing, and another is made.
    private XElement? Opened(SealedKey key)
    {
        var whole = key.Sealed.Span;
        if (whole.Length >= NonceBytes + TagBytes)
        {
            var plain = new byte[whole.Length - NonceBytes - TagBytes];
            try
            {
                cipher.Decrypt(
                    whole[..NonceBytes],
                    whole[NonceBytes..^TagBytes],
                    whole[^TagBytes..],
                    plain,
                    Encoding.UTF8.GetBytes(key.Name)
                );
                return XElement.Parse(Encoding.UTF8.GetString(plain));
            }
            catch (Exception failure) when (failure is CryptographicException or XmlException)
            {
                // Told below.
            }
        }

        NotOpened(key.Name);
        return null;
    }

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "a key of sessions is passed over, since it cannot be opened with the key of the log: {Name}"
    )]
    private partial void NotOpened(string name);
}
