using ServiceRules.Storage.Tests.Working;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteWorkTests() : WorkContract(() => new Drawer());
