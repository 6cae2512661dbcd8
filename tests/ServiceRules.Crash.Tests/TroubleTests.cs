using System.Net;
using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace ServiceRules.Crash.Tests;

/// <summary>
/// No room on the disk, a disk that takes nothing, a database that somebody else holds: answered by problems, nothing stored
/// in half, and gone with the trouble, without a restart.
/// </summary>
public sealed class TroubleTests
{
    private const int RecordsMost = 400;

    [SkippableFact]
    public async Task Submit_DiskWithoutRoom_IsRefusedUntilThereIsRoomAgain()
    {
        using var disk = SmallDisk.Mounted("16m");
        using var folder = new DataFolder(disk.Place);
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        var ballast = Path.Combine(disk.Place, "ballast");
        await File.WriteAllBytesAsync(ballast, new byte[4 * 1024 * 1024]);
        var promises = new Promises();

        var number = 0;
        HttpStatusCode status;
        do
        {
            status = await SubmitAsync(client, ++number, promises);
        } while (status == HttpStatusCode.Created && number < RecordsMost);

        Assert.Equal(HttpStatusCode.InsufficientStorage, status);
        await KeptPromises.AssertVersionsAsync(client, promises, "with no room");
        File.Delete(ballast);
        Assert.Equal(HttpStatusCode.Created, await SubmitAsync(client, number, promises));
        await KeptPromises.AssertVersionsAsync(client, promises, "with room again");
        await service.KillAsync();
        _ = folder.Entries();
    }

    [SkippableFact]
    public async Task Serve_OnADiskThatIsReadOnly_DoesNotStartAndSaysWhy()
    {
        using var disk = SmallDisk.Mounted("64m");
        using var folder = new DataFolder(disk.Place);
        using (var service = await ServedProgram.StartAsync(folder.Data))
        {
            await service.KillAsync();
        }

        disk.TakeNothing();
        using var again = ServedProgram.Launch(folder.Data);

        Assert.Null(await again.AddressAsync());
        await again.EndedAsync();
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("ead-only", again.Complaints, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", again.Complaints, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Serve_OnADiskWithoutRoom_DoesNotStartAndEndsWithThree()
    {
        using var disk = SmallDisk.Mounted("1m");
        using var folder = new DataFolder(disk.Place);
        await FillAsync(Path.Combine(disk.Place, "ballast"));

        using var service = ServedProgram.Launch(folder.Data);

        Assert.Null(await service.AddressAsync());
        await service.EndedAsync();
        Assert.True(service.ExitCode == 3, service.Complaints);
        Assert.Contains("no room is left", service.Complaints, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", service.Complaints, StringComparison.Ordinal);
    }

    private static async Task FillAsync(string path)
    {
        await using var ballast = new FileStream(
            path,
            FileMode.CreateNew,
            FileAccess.Write,
            FileShare.None,
            1
        );
        try
        {
            while (true)
            {
                await ballast.WriteAsync(new byte[4096]);
            }
        }
        catch (IOException)
        {
            // There is no room any more, as it is meant to be.
        }
    }

    [Fact]
    public async Task Submit_DatabaseThatSomebodyHolds_IsPutOffAndGoesThroughAfterwards()
    {
        using var folder = new DataFolder();
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        var promises = new Promises();
        Assert.Equal(HttpStatusCode.Created, await SubmitAsync(client, 1, promises));

        await using (var holder = new SqliteConnection($"Data Source={folder.Database};Pooling=False"))
        {
            await holder.OpenAsync();
            await using var hold = holder.CreateCommand();
            hold.CommandText = "BEGIN IMMEDIATE";
            await hold.ExecuteNonQueryAsync();
            Assert.Equal(HttpStatusCode.ServiceUnavailable, await SubmitAsync(client, 2, promises));
            // Reading goes on meanwhile.
            await KeptPromises.AssertVersionsAsync(client, promises, "while it is held");
        }

        Assert.Equal(HttpStatusCode.Created, await SubmitAsync(client, 2, promises));
        Assert.Equal(2, await KeptPromises.AssertVersionsAsync(client, promises, "after it"));
    }

    private static async Task<HttpStatusCode> SubmitAsync(HttpClient client, int number, Promises promises)
    {
        using var content = new ByteArrayContent(Job.Of(number));
        content.Headers.ContentType = new("application/json");
        using var answer = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
        var told = await answer.Content.ReadAsByteArrayAsync();
        using var document = JsonDocument.Parse(told);
        if (answer.StatusCode == HttpStatusCode.Created)
        {
            var record = document.RootElement.GetProperty("record");
            promises.Versions.Add(
                new KeptVersion(
                    Job.IdOf(number),
                    record.GetProperty("index").GetInt64(),
                    record.GetProperty("content").GetString()!
                )
            );
        }
        else
        {
            Assert.True(
                answer.Content.Headers.ContentType?.MediaType == "application/problem+json",
                $"{(int)answer.StatusCode}: {document.RootElement}"
            );
        }

        return answer.StatusCode;
    }
}
