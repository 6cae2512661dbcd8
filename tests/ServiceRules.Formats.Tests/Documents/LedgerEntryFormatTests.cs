using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Formats.Tests.Documents;

public sealed class LedgerEntryFormatTests
{
    private const string Digest = "sha256:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

    private static JsonObject Sample() =>
        new()
        {
            ["format"] = "ledger-entry/1",
            ["kind"] = "amendment",
            ["at"] = "2026-04-13T07:04:00.125Z",
            ["by"] = "p-0123456789abcdef",
            ["sender"] = new JsonObject
            {
                ["name"] = "account:0123456789abcdef",
                ["person"] = "p-0123456789abcdef",
                ["place"] = "/people/0/id",
            },
            ["subject"] = "J-2026-0412",
            ["content"] = Digest,
            ["contentBytes"] = 5_000_000_000,
            ["corrects"] = new JsonObject { ["index"] = 12, ["content"] = Digest },
            ["reason"] = "misread the gauge",
        };

    private static bool IsRead(JsonObject entry, out LedgerEntry? read, out string pointer)
    {
        var outcome = LedgerEntryFormat.Current.Read(Encoding.UTF8.GetBytes(entry.ToJsonString()));
        var isRead = outcome.TryGet(out read, out var problems);
        pointer = isRead ? "" : problems.Told[0].Pointer;
        return isRead;
    }

    [Fact]
    public void Read_EveryMember_IsKeptAndWrittenAgain()
    {
        Assert.True(IsRead(Sample(), out var entry, out _));

        Assert.Equal(EntryKind.Amendment, entry!.Kind);
        Assert.Equal(new DateTimeOffset(2026, 4, 13, 7, 4, 0, 125, TimeSpan.Zero), entry.At);
        Assert.Equal(5_000_000_000, entry.ContentBytes);
        Assert.Equal(new CorrectedEntry(12, Digest), entry.Corrects);
        Assert.Equal(
            new EntrySender("account:0123456789abcdef", "p-0123456789abcdef", "/people/0/id"),
            entry.Sender
        );
        Assert.True(JsonNode.DeepEquals(Sample(), JsonNode.Parse(LedgerEntryFormat.Current.Write(entry))));
    }

    [Theory]
    [InlineData("by", "lead-01")]
    [InlineData("by", "p-0123456789ABCDEF")]
    [InlineData("at", "2026-04-13T07:04:00Z")]
    [InlineData("at", "2026-04-13T08:04:00.125+01:00")]
    [InlineData("at", "2026-02-30T07:04:00.125Z")]
    [InlineData("content", "0123456789abcdef")]
    [InlineData("subject", "a name with spaces")]
    [InlineData("kind", "note")]
    public void Read_AnotherForm_IsRefusedThere(string member, string value)
    {
        var entry = Sample();
        entry[member] = value;

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal("/" + member, pointer);
    }

    [Theory]
    [InlineData("amendment", "corrects")]
    [InlineData("assessment", "of")]
    [InlineData("report", "of")]
    public void Read_KindWithoutWhatItNeeds_IsRefused(string kind, string missing)
    {
        var entry = Sample();
        entry["kind"] = kind;
        entry["of"] = Digest;
        if (kind != "amendment")
        {
            entry.Remove("sender");
        }

        Assert.True(IsRead(entry, out _, out _));

        entry.Remove(missing);

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal("/kind", pointer);
    }

    [Theory]
    [InlineData("name", "sam.green", "/sender/name")]
    [InlineData("name", "account:0123", "/sender/name")]
    [InlineData("person", "tech-01", "/sender/person")]
    [InlineData("place", "/people/0", "/sender/place")]
    [InlineData("place", "/units/0/entries/0/by", "/sender/place")]
    public void Read_SenderInAnotherForm_IsRefusedThere(string member, string value, string told)
    {
        var entry = Sample();
        entry["sender"]![member] = value;

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal(told, pointer);
    }

    [Fact]
    public void Read_PlaceOfNobody_IsRefused()
    {
        var entry = Sample();
        entry["sender"]!.AsObject().Remove("person");

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal("/sender/place", pointer);
    }

    [Fact]
    public void Read_SenderOfWhatNobodySends_IsRefused()
    {
        var entry = Sample();
        entry["kind"] = "assessment";
        entry["of"] = Digest;

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal("/sender", pointer);
    }

    [Fact]
    public void Read_CorrectionWithoutReason_IsRefused()
    {
        var entry = Sample();
        entry.Remove("reason");

        Assert.False(IsRead(entry, out _, out var pointer));
        Assert.Equal("/corrects", pointer);
    }
}
