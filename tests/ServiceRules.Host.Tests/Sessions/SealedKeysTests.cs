using System.Collections.Immutable;
using System.Text;
using System.Xml.Linq;
using Microsoft.Extensions.Logging.Abstractions;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Sessions;

namespace ServiceRules.Host.Tests.Sessions;

/// <summary>That keys of sessions are read by those who have the secret alone, and only as they were kept.</summary>
public sealed class SealedKeysTests
{
    private readonly Held _held = new();

    private SealedKeys Keys(byte secret = 1) =>
        new(_held, [.. Enumerable.Repeat(secret, 32)], NullLogger<SealedKeys>.Instance);

    [Fact]
    public void Key_Kept_ComesBackAndIsNotReadableInTheStore()
    {
        using var keys = Keys();
        keys.StoreElement(new XElement("key", new XElement("masterKey", "very secret")), "key-1");
        keys.StoreElement(new XElement("revocation"), "revocation-1");

        Assert.Equal(
            ["<key><masterKey>very secret</masterKey></key>", "<revocation />"],
            keys.GetAllElements().Select(one => one.ToString(SaveOptions.DisableFormatting))
        );
        Assert.All(
            _held.Keys,
            key =>
                Assert.DoesNotContain(
                    "secret",
                    Encoding.Latin1.GetString(key.Sealed.Span),
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void Key_SealedWithAnotherSecretOrChangedOrUnderAnotherName_IsPassedOver()
    {
        using var keys = Keys();
        using var others = Keys(2);
        keys.StoreElement(new XElement("good"), "key-good");
        others.StoreElement(new XElement("bad"), "key-other");
        var sound = _held.Keys[0];
        var changed = sound.Sealed.ToArray();
        changed[^1] ^= 1;
        _held.Add(sound with { Name = "key-renamed" });
        _held.Add(new("key-changed", changed));
        _held.Add(new("key-short", new byte[5]));

        Assert.Equal("good", Assert.Single(keys.GetAllElements()).Name);
    }

    private sealed class Held : ISealedKeyStore
    {
        public List<SealedKey> Keys { get; } = [];

        public ImmutableArray<SealedKey> All() => [.. Keys];

        public void Add(SealedKey key) => Keys.Add(key);
    }
}
