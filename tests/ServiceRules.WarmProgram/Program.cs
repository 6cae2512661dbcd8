using System.Reflection;
using System.Text;
using System.Text.Json;
using ServiceRules.TestKit;

// The command line run again and again in one process, one run after the other: what a run costs is mostly the program
// being compiled as it starts. A line of JSON on standard input asks for a run, a line on standard output answers.
var program = Assembly.Load("servicerules").EntryPoint!;
var home = Directory.GetCurrentDirectory();
using var asked = new StreamReader(Console.OpenStandardInput(), Encoding.UTF8);
await using var answered = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false));
Console.SetIn(TextReader.Null);
while (await asked.ReadLineAsync() is { } line)
{
    var request = JsonSerializer.Deserialize<WarmRequest>(line)!;
    var before = Environment.CpuUsage.TotalTime;
    using var output = new StringWriter();
    using var error = new StringWriter();
    Console.SetOut(output);
    Console.SetError(error);
    foreach (var (variable, value) in request.Environment)
    {
        Environment.SetEnvironmentVariable(variable, value);
    }

    Directory.SetCurrentDirectory(request.Folder);
    var exitCode = (int)program.Invoke(null, [request.Arguments])!;
    // The folder of a test goes with the test.
    Directory.SetCurrentDirectory(home);
    var answer = new WarmAnswer(
        exitCode,
        output.ToString(),
        error.ToString(),
        (Environment.CpuUsage.TotalTime - before).Ticks
    );
    await answered.WriteLineAsync(JsonSerializer.Serialize(answer));
    await answered.FlushAsync();
}
