from kitlist.faces.cli import main

main()
