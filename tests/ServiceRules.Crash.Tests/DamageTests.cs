using System.Net;
using Microsoft.Data.Sqlite;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>A database that was cut, spoilt or put back from before is named at the start, and never served as whole.</summary>
public sealed class DamageTests(DamageTests.FiledFolder filed, ITestOutputHelper told)
    : IClassFixture<DamageTests.FiledFolder>
{
    private const int Jobs = 12;
    private const int JobsInBackup = 5;

    private static readonly int Flips = Tier.Of(3, 200);

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.3)]
    [InlineData(0.6)]
    [InlineData(0.97)]
    public async Task Serve_OnADatabaseThatWasCut_DoesNotStartAndSaysWhy(double kept)
    {
        using var folder = filed.Folder.Copied();
        using (var file = File.OpenWrite(folder.Database))
        {
            file.SetLength((long)(file.Length * kept));
        }

        await AssertRefusedAsync(folder, "ledger");
    }

    [Fact]
    public async Task Serve_OnAnOlderBackupUnderANewerCheckpoint_DoesNotStartAndNamesWhatIsMissing()
    {
        using var folder = filed.Folder.Copied();
        foreach (var file in Directory.EnumerateFiles(folder.Ledger, "ledger.db*"))
        {
            File.Delete(file);
        }

        File.Copy(Path.Combine(filed.Backup, "ledger.db"), folder.Database);

        await AssertRefusedAsync(folder, "are missing");
    }

    [Fact]
    public async Task Serve_OnADatabaseWithAFlippedBit_RefusesOrAnswersAsBefore()
    {
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var (refused, failing, whole) = (0, 0, 0);
        for (var flip = 0; flip < Flips; flip++)
        {
            using var folder = filed.Folder.Copied();
            var at = Flip(folder.Database, random);
            using var service = ServedProgram.Launch(folder.Data);
            if (await service.AddressAsync() is null)
            {
                refused++;
                await service.EndedAsync();
                AssertToldPlainly(service, $"seed {seed}, bit of byte {at}");
                continue;
            }

            using var client = await service.ClientAsync(filed.Key);
            var answers = 0;
            for (var number = 0; number < Jobs; number++)
            {
                using var answer = await client.GetAsync(Record(number));
                var text = await answer.Content.ReadAsStringAsync();
                answers += answer.StatusCode == HttpStatusCode.OK ? 1 : 0;
                // Whatever still is answered is what was filed, to the byte.
                Assert.True(
                    answer.StatusCode == HttpStatusCode.OK
                        ? filed.Answers[number] == text
                        : (int)answer.StatusCode is 401 or (>= 500),
                    $"seed {seed}, bit of byte {at}: record {number}, {(int)answer.StatusCode}, {Difference(filed.Answers[number], text)}"
                );
            }

            whole += answers == Jobs ? 1 : 0;
            failing += answers == Jobs ? 0 : 1;
        }

        told.WriteLine(
            $"seed {seed}: of {Flips} flipped bits {refused} were refused at the start, {failing} made answers fail, {whole} changed no answer"
        );
    }

    private static string Difference(string was, string isNow)
    {
        const int Around = 120;
        var at = was.Zip(isNow).TakeWhile(pair => pair.First == pair.Second).Count();
        var from = Math.Max(0, at - Around);
        return $"`{was[from..Math.Min(was.Length, at + Around)]}` and now `{isNow[from..Math.Min(isNow.Length, at + Around)]}`";
    }

    private static Uri Record(int number) => new($"api/records/{Job.IdOf(number)}", UriKind.Relative);

    private static long Flip(string database, Random random)
    {
        using var file = File.Open(database, FileMode.Open);
        var at = random.NextInt64(file.Length);
        file.Position = at;
        var was = file.ReadByte();
        file.Position = at;
        file.WriteByte((byte)(was ^ (1 << random.Next(8))));
        return at;
    }

    private static async Task AssertRefusedAsync(DataFolder folder, string named)
    {
        using var service = ServedProgram.Launch(folder.Data);
        Assert.Null(await service.AddressAsync());
        await service.EndedAsync();
        AssertToldPlainly(service, named);
        Assert.Contains(named, service.Complaints, StringComparison.Ordinal);
    }

    private static void AssertToldPlainly(ServedProgram service, string about)
    {
        Assert.True(service.ExitCode == 2, $"{about}: exit code {service.ExitCode}, {service.Complaints}");
        Assert.True(service.Complaints.Trim().Length > 0, $"{about}: it said nothing");
        Assert.DoesNotContain("   at ", service.Complaints, StringComparison.Ordinal);
    }

    /// <summary>A data folder with some jobs filed, nothing running on it, and a backup from before the last of them.</summary>
    public sealed class FiledFolder : IAsyncLifetime
    {
        internal DataFolder Folder { get; } = new();

        internal string Key { get; private set; } = "";

        /// <summary>A copy of the ledger as it was some jobs ago.</summary>
        internal string Backup => Folder.Data + "-backup";

        /// <summary>What is answered for each record.</summary>
        internal List<string> Answers { get; } = [];

        public async Task InitializeAsync()
        {
            using var service = await ServedProgram.StartAsync(Folder.Data);
            Key = Folder.NewKey();
            using var client = await service.ClientAsync(Key);
            for (var number = 0; number < Jobs; number++)
            {
                if (number == JobsInBackup)
                {
                    Folder.Backup(Backup);
                }

                using var content = new ByteArrayContent(Job.Of(number));
                content.Headers.ContentType = new("application/json");
                using var answer = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
                Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
            }

            for (var number = 0; number < Jobs; number++)
            {
                Answers.Add(await client.GetStringAsync(Record(number)));
            }

            await service.KillAsync();
            // All of it in one file, so that a cut or a bit meets what was filed.
            await using var database = new SqliteConnection($"Data Source={Folder.Database};Pooling=False");
            await database.OpenAsync();
            await using var command = database.CreateCommand();
            command.CommandText = "PRAGMA wal_checkpoint(TRUNCATE)";
            await command.ExecuteNonQueryAsync();
        }

        public Task DisposeAsync()
        {
            Folder.Dispose();
            return Task.CompletedTask;
        }
    }
}
