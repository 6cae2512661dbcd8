using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>Several instances that run on one PostgreSQL, and a client of each.</summary>
internal sealed class SharedShop : IDisposable
{
    private const UnixFileMode Private =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private readonly List<ServedProgram> programs = [];
    private string key = "";

    public List<DataFolder> Folders { get; } = [];

    public List<HttpClient> Clients { get; } = [];

    public IReadOnlyList<ServedProgram> Programs => programs;

    /// <param name="server">Where the database is.</param>
    /// <param name="instances">How many.</param>
    /// <param name="prepare">What is put into the folder that all begin with, once it is there.</param>
    public static async Task<SharedShop> OpenAsync(
        PostgresServer server,
        int instances,
        Action<DataFolder>? prepare = null
    )
    {
        var shop = new SharedShop();
        var first = new DataFolder();
        shop.Folders.Add(first);
        Begin(first, server.NewDatabase());
        prepare?.Invoke(first);
        // The keys are made by the first, and carried to the others before they start.
        using (var once = await ServedProgram.StartAsync(first.Data))
        {
            shop.key = first.NewKey();
            using var client = await once.ClientAsync(shop.key);
            _ = await client.GetStringAsync(new Uri("api/certificate", UriKind.Relative));
            // And a checkpoint: an instance that keeps none could not tell a log put back from before.
            using var content = new ByteArrayContent(Job.Of(0));
            content.Headers.ContentType = new("application/json");
            using var filed = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
            Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
            await once.KillAsync();
        }

        while (shop.Folders.Count < instances)
        {
            shop.Folders.Add(first.Copied());
        }

        foreach (var folder in shop.Folders)
        {
            var program = await ServedProgram.StartAsync(folder.Data);
            shop.programs.Add(program);
            shop.Clients.Add(await program.ClientAsync(shop.key));
        }

        return shop;
    }

    private static void Begin(DataFolder folder, string address)
    {
        if (OperatingSystem.IsWindows())
        {
            throw new SkipException("the folder is made private as Unix has it");
        }

        Directory.CreateDirectory(folder.Ledger, Private);
        File.SetUnixFileMode(folder.Data, Private);
        var place = Path.Combine(folder.Ledger, "postgres.address");
        File.WriteAllText(place, address);
        File.SetUnixFileMode(place, UnixFileMode.UserRead | UnixFileMode.UserWrite);
    }

    public Task KillAsync(int instance) => programs[instance].KillAsync();

    public async Task KillAndStartAsync(int instance)
    {
        await programs[instance].KillAsync();
        programs[instance].Dispose();
        programs[instance] = await ServedProgram.StartAsync(Folders[instance].Data);
        // Whoever asks the old one gets no answer, and asks the next.
        Clients[instance] = await programs[instance].ClientAsync(key);
    }

    public void Dispose()
    {
        Clients.ForEach(client => client.Dispose());
        programs.ForEach(program => program.Dispose());
        Folders.ForEach(folder => folder.Dispose());
    }
}
