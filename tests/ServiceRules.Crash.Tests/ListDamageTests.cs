using System.Net;
using System.Text.Json;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>What lists are made of, spoilt in the file: named, or the lists are right.</summary>
public sealed class ListDamageTests(DamageTests.FiledFolder filed, ITestOutputHelper told)
    : IClassFixture<DamageTests.FiledFolder>
{
    private static readonly int Flips = Tier.Of(3, 200);

    private static readonly string[] Tables = ["record_row", "unit_row", "finding_row", "shown_row"];

    private static readonly string[] Lists =
    [
        "api/records?limit=1000",
        "api/records?disposition=hold&limit=1000",
        "api/records?machine=M-02&limit=1000",
        "api/units?latest=only&limit=1000",
        "api/units?unit=U-02-1&limit=1000",
        "api/findings?verdict=not-met&limit=1000",
        "api/findings?verdict=unproven&limit=1000",
        "api/findings?limit=1000",
    ];

    [Fact]
    public async Task Serve_OnRowsWithAFlippedBit_DoesNotStartOrEachListIsAsBefore()
    {
        var (seed, random) = Drawn();
        var before = await AskedAsync(filed.Folder);
        var used = TablePages.UsedBytes(filed.Folder.Database, Tables);
        var (refused, failing, whole) = (0, 0, 0);
        for (var flip = 0; flip < Flips; flip++)
        {
            using var folder = filed.Folder.Copied();
            var at = Flip(folder.Database, used, random);
            using var service = ServedProgram.Launch(folder.Data);
            if (await service.AddressAsync() is null)
            {
                refused++;
                await service.EndedAsync();
                Assert.True(service.ExitCode == 2, $"seed {seed}, byte {at}: {service.Complaints}");
                Assert.DoesNotContain("   at ", service.Complaints, StringComparison.Ordinal);
                continue;
            }

            var after = await AskedAsync(service);
            Assert.All(
                Lists,
                list =>
                    Assert.True(
                        after[list] is null || after[list] == before[list],
                        $"seed {seed}, byte {at}: {list} is another"
                    )
            );
            whole += after.Values.All(answer => answer is not null) ? 1 : 0;
            failing += after.Values.Any(answer => answer is null) ? 1 : 0;
        }

        told.WriteLine(
            $"seed {seed}: of {Flips} bits flipped in rows {refused} were refused at the start, {failing} made lists fail, {whole} changed no list"
        );
    }

    [Fact]
    public async Task Serve_WhoseRowsLoseABitWhileItRuns_TellsNoRowThatIsAnother()
    {
        var (seed, random) = Drawn();
        var before = await AskedAsync(filed.Folder);
        var used = TablePages.UsedBytes(filed.Folder.Database, Tables);
        var (failing, shorter, whole) = (0, 0, 0);
        for (var flip = 0; flip < Flips; flip++)
        {
            using var folder = filed.Folder.Copied();
            using var service = await ServedProgram.StartAsync(folder.Data);
            var at = Flip(folder.Database, used, random);
            var after = await AskedAsync(service);
            foreach (var list in Lists)
            {
                var strangers = Items(after[list]).Except(Items(before[list])).ToList();
                Assert.True(
                    strangers.Count == 0,
                    $"seed {seed}, byte {at}: {list} tells {strangers.FirstOrDefault()}"
                );
            }

            var isFailing = after.Values.Any(answer => answer is null);
            var isShorter = Lists.Any(list =>
                after[list] is not null && Items(after[list]).Count() != Items(before[list]).Count()
            );
            failing += isFailing ? 1 : 0;
            shorter += isShorter ? 1 : 0;
            whole += isFailing || isShorter ? 0 : 1;
        }

        told.WriteLine(
            $"seed {seed}: of {Flips} bits flipped in rows while it ran {failing} made lists fail, {shorter} left something out of one, {whole} changed no list"
        );
    }

    private static (int Seed, Random Random) Drawn()
    {
        var seed = Environment.TickCount;
        return (seed, new Random(seed));
    }

    private static IEnumerable<string> Items(string? list)
    {
        if (list is null)
        {
            return [];
        }

        using var document = JsonDocument.Parse(list);
        return
        [
            .. document.RootElement.GetProperty("items").EnumerateArray().Select(item => item.GetRawText()),
        ];
    }

    private static long Flip(string database, IReadOnlyList<long> used, Random random)
    {
        using var file = File.Open(database, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
        var at = used[random.Next(used.Count)];
        file.Position = at;
        var was = file.ReadByte();
        file.Position = at;
        file.WriteByte((byte)(was ^ (1 << random.Next(8))));
        return at;
    }

    private async Task<Dictionary<string, string?>> AskedAsync(DataFolder whole)
    {
        using var folder = whole.Copied();
        using var service = await ServedProgram.StartAsync(folder.Data);
        var asked = await AskedAsync(service);
        Assert.All(asked.Values, Assert.NotNull);
        return asked;
    }

    // Null where it failed and said so.
    private async Task<Dictionary<string, string?>> AskedAsync(ServedProgram service)
    {
        using var client = await service.ClientAsync(filed.Key);
        var answers = new Dictionary<string, string?>();
        foreach (var list in Lists)
        {
            using var answer = await client.GetAsync(new Uri(list, UriKind.Relative));
            Assert.True(
                answer.StatusCode == HttpStatusCode.OK || (int)answer.StatusCode is 401 or (>= 500),
                $"{list}: {(int)answer.StatusCode}"
            );
            answers[list] =
                answer.StatusCode == HttpStatusCode.OK ? await answer.Content.ReadAsStringAsync() : null;
        }

        return answers;
    }
}
