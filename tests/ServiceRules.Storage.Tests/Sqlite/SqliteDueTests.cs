using ServiceRules.Storage.Tests.Due;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteDueTests() : DueContract(() => new Drawer());
